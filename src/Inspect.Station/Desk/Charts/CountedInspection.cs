using Inspect.Rules.Judging;

namespace Inspect.Station.Desk.Charts;

/// <summary>One recorded inspection as charts count it.</summary>
public sealed record CountedInspection
{
    public required string Number { get; init; }

    /// <summary>The bowler's number in the event.</summary>
    public required string Entry { get; init; }

    /// <summary>The opaque id of the ball, where it was given.</summary>
    public required string? Ball { get; init; }

    /// <summary>When it was measured, or else recorded, by the clock at the venue.</summary>
    public required DateTime At { get; init; }

    public required Outcome Outcome { get; init; }

    /// <summary>The opaque id of whoever recorded it.</summary>
    public required string By { get; init; }

    /// <summary>How the inspection that it replaces came out; nothing for a first one.</summary>
    public required Outcome? Before { get; init; }

    /// <summary>The number of the inspection that replaced it, or null while it stands.</summary>
    public required string? SupersededBy { get; init; }

    /// <summary>The day of play whose rules were applied.</summary>
    public required DateOnly Play { get; init; }

    /// <summary>Which rules were applied.</summary>
    public required JudgedUnder Under { get; init; }

    public required IReadOnlyList<CountedFinding> Findings { get; init; }

    public required IReadOnlyList<CountedObservation> Observations { get; init; }
}

/// <summary>What one rule said.</summary>
/// <param name="Rule">The rule's id.</param>
/// <param name="Path">The member of the sheet that was read.</param>
/// <param name="Outcome">Met, not met or open.</param>
/// <param name="Measured">The reading, or the figure formed of several, in the base unit of what it measures; absent for what is no
/// measure.</param>
/// <param name="Limit">What is allowed.</param>
public sealed record CountedFinding(string Rule, string? Path, Outcome Outcome, decimal? Measured, Allowed? Limit);

/// <summary>One reading as the instrument showed it.</summary>
/// <param name="Path">The member of the sheet it belongs to.</param>
/// <param name="Text">As typed.</param>
/// <param name="Instrument">Which instrument, by its name at this station.</param>
/// <param name="Turned">Whether the ball was turned by half a turn for it.</param>
/// <param name="Trial">Which trial it was, from 1.</param>
public sealed record CountedObservation(string Path, string Text, string? Instrument, bool Turned, int? Trial);
