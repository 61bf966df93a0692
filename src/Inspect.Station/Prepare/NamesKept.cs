namespace Inspect.Station.Prepare;

/// <summary>How long the names of an event's bowlers are kept, in words.</summary>
public static class NamesKept
{
    /// <summary>The longest time that can be set, in days.</summary>
    public const int Longest = 3650;

    /// <summary>The time that the form proposes, in days. A convention of this station.</summary>
    public const int Proposed = 90;

    /// <summary>The time that an event sets.</summary>
    public static string For(Event held) =>
        held.NamesDue is null ? "no time set" : $"{EventCorrections.Count(held.NamesKeptDays, "day", "days")} after the last day";

    /// <summary>What is to become of the names, or became of them, in a sentence.</summary>
    /// <param name="held">The event.</param>
    /// <param name="today">The date at the venue.</param>
    /// <param name="struck">When they were struck; null when they were not.</param>
    public static string Sentence(Event held, DateOnly today, DateTimeOffset? struck) =>
        struck is { } at ? $"The names of its bowlers were struck on {EventWords.Day(held.DayAt(at))}."
        : held.NamesDue is not { } due ? "No time is set after which the names of its bowlers are to be struck."
        : AreDue(held, today) ? $"The names of its bowlers are due to be struck since {EventWords.Day(due)}."
        : $"The names of its bowlers are due to be struck on {EventWords.Day(due)}.";

    /// <summary>Whether the time that an event sets has passed.</summary>
    public static bool AreDue(Event held, DateOnly today) => held.NamesDue <= today;
}
