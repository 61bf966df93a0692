using Inspect.Station.Access;

namespace Inspect.Station.Desk;

/// <summary>What a director looks for: every member that is given narrows, and none is every inspection of the station.</summary>
public sealed record FindFilter
{
    /// <summary>What was typed into the one search field: a name, a number, a serial, a code.</summary>
    public string? Search { get; init; }

    /// <summary>The event's short name.</summary>
    public string? Event { get; init; }

    /// <summary>The bowler's number in an event.</summary>
    public string? Entry { get; init; }

    /// <summary>A bowler's name or part of it.</summary>
    public string? Bowler { get; init; }

    /// <summary>The opaque id of one ball.</summary>
    public string? Ball { get; init; }

    /// <summary>A serial number; look-alike characters count as one.</summary>
    public string? Serial { get; init; }

    /// <summary>Every way in which maker and model may be written; none fits nothing.</summary>
    public IReadOnlyList<string>? Models { get; init; }

    /// <summary>Who recorded.</summary>
    public PersonId? Inspector { get; init; }

    /// <summary>pass, fail or hold.</summary>
    public string? Outcome { get; init; }

    /// <summary>stands, superseded, withdrawn or ruled.</summary>
    public string? Standing { get; init; }

    /// <summary>A rule that was not met or stayed open.</summary>
    public string? Rule { get; init; }

    /// <summary>fail for a rule that was not met, hold for one that stayed open; either when it is not given.</summary>
    public string? RuleOutcome { get; init; }

    /// <summary>An instrument that some reading was taken with, by its name at this station.</summary>
    public string? Instrument { get; init; }

    /// <summary>The rule edition's id.</summary>
    public string? Edition { get; init; }

    /// <summary>The first day of play, local to the venue.</summary>
    public DateOnly? From { get; init; }

    /// <summary>The last day of play, local to the venue.</summary>
    public DateOnly? To { get; init; }

    /// <summary>Recorded at this instant or later.</summary>
    public DateTimeOffset? RecordedFrom { get; init; }

    /// <summary>Recorded before this instant.</summary>
    public DateTimeOffset? RecordedBefore { get; init; }
}

/// <summary>Where a page of results begins: older or newer than one entry of the register, whatever is recorded meanwhile.</summary>
/// <param name="Seq">The entry.</param>
/// <param name="IsOlder">Whether the page goes on to older ones.</param>
public sealed record FindCursor(long Seq, bool IsOlder)
{
    private const string Older = "before-";
    private const string Newer = "after-";

    /// <summary>Reads what <see cref="ToString"/> wrote.</summary>
    public static FindCursor? Parse(string text)
    {
        var isOlder = text.StartsWith(Older, StringComparison.Ordinal);
        var digits = isOlder ? text[Older.Length..] : text.StartsWith(Newer, StringComparison.Ordinal) ? text[Newer.Length..] : "";
        return long.TryParse(digits, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var seq)
            ? new FindCursor(seq, isOlder)
            : null;
    }

    public override string ToString() => FormattableString.Invariant($"{(IsOlder ? Older : Newer)}{Seq}");
}
