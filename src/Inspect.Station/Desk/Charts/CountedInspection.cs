using Inspect.Rules.Judging;

namespace Inspect.Station.Desk.Charts;

/// <summary>One recorded inspection as charts count it.</summary>
public sealed record CountedInspection
{
    public required string Number { get; init; }

    /// <summary>The bowler's number in the event.</summary>
    public required string Entry { get; init; }

    /// <summary>The opaque id of the ball, if it was given.</summary>
    public required string? Ball { get; init; }

    /// <summary>When it was measured, or else recorded, by the clock at the venue.</summary>
    public required DateTime At { get; init; }

    public required Outcome Outcome { get; init; }

    /// <summary>The opaque id of the person who recorded it.</summary>
    public required string By { get; init; }

    /// <summary>The outcome of the inspection that it replaces; null for a first one.</summary>
    public required Outcome? Before { get; init; }

    /// <summary>The number of the inspection that replaced it, or null.</summary>
    public required string? SupersededBy { get; init; }

    /// <summary>The day of play whose rules were applied.</summary>
    public required DateOnly Play { get; init; }

    /// <summary>Which rules were applied.</summary>
    public required JudgedUnder Under { get; init; }

    public required IReadOnlyList<CountedFinding> Findings { get; init; }

    public required IReadOnlyList<CountedObservation> Observations { get; init; }
}

/// <summary>The finding of one rule.</summary>
/// <param name="Rule">The rule's id.</param>
/// <param name="Path">The member of the sheet that was read.</param>
/// <param name="Outcome">Met, not met or open.</param>
/// <param name="Measured">The reading, or the figure computed from several, in the base unit of its quantity; null when it
/// is not a measured value.</param>
/// <param name="Limit">What is allowed.</param>
public sealed record CountedFinding(string Rule, string? Path, Outcome Outcome, decimal? Measured, Allowed? Limit);

/// <summary>One reading as the instrument showed it.</summary>
/// <param name="Path">The member of the sheet it belongs to.</param>
/// <param name="Text">As typed.</param>
/// <param name="Instrument">Which instrument, by its name at this station.</param>
/// <param name="Turned">Whether the ball was turned by half a turn for it.</param>
/// <param name="Trial">Which trial it was, from 1.</param>
public sealed record CountedObservation(string Path, string Text, string? Instrument, bool Turned, int? Trial);
