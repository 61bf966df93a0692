using System.Globalization;

namespace Inspect.Station.Prepare;

/// <summary>A tournament as the station knows it.</summary>
/// <param name="Id">The short name, which inspection numbers begin with: two to twelve letters A to Z and digits.</param>
/// <param name="Name">The name in full.</param>
/// <param name="From">The first day of play at the venue.</param>
/// <param name="To">The last day of play at the venue.</param>
/// <param name="TimeZone">The venue's time zone by its IANA name.</param>
/// <param name="Authority">The body whose rules apply.</param>
/// <param name="Edition">The edition the event is fixed to, or null for the one in force on the day of play.</param>
/// <param name="Plan">The ids of the rules that are checked, or null for every rule of the edition.</param>
/// <param name="HasSingleOfficial">Whether one official both measures and rules.</param>
/// <param name="Squads">The squads in the order in which they begin.</param>
public sealed record Event(
    string Id,
    string Name,
    DateOnly From,
    DateOnly To,
    string TimeZone,
    string Authority,
    string? Edition,
    IReadOnlyList<string>? Plan,
    bool HasSingleOfficial,
    IReadOnlyList<Squad> Squads)
{
    /// <summary>For how many days after the last day the names of its bowlers are kept; 0 when no time is set.</summary>
    public int NamesKeptDays { get; init; }

    /// <summary>The day from which the names are due to be struck; null when no time is set.</summary>
    public DateOnly? NamesDue => NamesKeptDays == 0 ? null : To.AddDays(NamesKeptDays);

    /// <summary>Whether a day of play belongs to the event.</summary>
    public bool Includes(DateOnly play) => From <= play && play <= To;

    /// <summary>The sentence that a day is not a day of the event; null when it is one.</summary>
    public string? RefusalOf(DateOnly play) => Includes(play)
        ? null
        : string.Create(CultureInfo.InvariantCulture,
            $"{play:d MMMM yyyy} is not a day of {Name}, which runs from {From:d MMMM yyyy} to {To:d MMMM yyyy}.");

    /// <summary>The instant at which a squad begins.</summary>
    public DateTimeOffset Begins(Squad squad) =>
        new(squad.Starts, TimeZoneInfo.FindSystemTimeZoneById(TimeZone).GetUtcOffset(squad.Starts));

    /// <summary>The date at the venue at an instant.</summary>
    public DateOnly DayAt(DateTimeOffset instant) =>
        DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(instant, TimeZoneInfo.FindSystemTimeZoneById(TimeZone)).DateTime);
}

/// <summary>A group that bowls together.</summary>
/// <param name="Name">What it is called within the event.</param>
/// <param name="Starts">When it begins, local time at the venue.</param>
public sealed record Squad(string Name, DateTime Starts);

/// <summary>A bowler in an event.</summary>
/// <param name="Number">The bowler's number as printed.</param>
/// <param name="Person">The bowler's id.</param>
/// <param name="Bowler">The name as people read it; null once struck.</param>
/// <param name="Squad">The squad entered for, or null.</param>
/// <param name="IsWithdrawn">Whether the entry stays only to be seen.</param>
/// <param name="MergedInto">The number of the same bowler that stays, when the entry was merged into it; null otherwise.</param>
public sealed record Entry(
    string Number, Access.PersonId Person, string? Bowler, string? Squad, bool IsWithdrawn = false, string? MergedInto = null)
{
    /// <summary>Whether the bowler is under age: whoever is not signed in reads no name.</summary>
    public bool IsUnderAge { get; init; }

    /// <summary>Why nothing of this entry is measured or called any more, in a sentence; null when it is.</summary>
    public string? Refusal => MergedInto is { } kept ? $"Entry {Number} was merged into {kept}; measure this bowler's balls there."
        : IsWithdrawn ? $"Entry {Number} is withdrawn, and no ball of it is measured; a director can bring it back."
        : Bowler is null ? $"The name of entry {Number} was struck, and no ball of it is measured any more." : null;
}
