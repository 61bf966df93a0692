using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Sheets.Form;
using Inspect.Station.Access;

namespace Inspect.Station.Record;

/// <summary>One recorded inspection: what was measured, by whom, and what the rules said of it.</summary>
public sealed record Inspection
{
    public required InspectionNumber Number { get; init; }

    /// <summary>What its slip's QR code carries.</summary>
    public required SlipCode Code { get; init; }

    /// <summary>When it was recorded.</summary>
    public required DateTimeOffset At { get; init; }

    public required string Event { get; init; }

    /// <summary>The bowler's number in the event.</summary>
    public required string Entry { get; init; }

    /// <summary>The bowler, and what stands for the name in the register.</summary>
    public required SealedName Bowler { get; init; }

    /// <summary>The opaque id of the ball, the same over its re-inspections.</summary>
    public required string Ball { get; init; }

    /// <summary>The earlier inspection of the same ball that this one replaces.</summary>
    public InspectionNumber? Supersedes { get; init; }

    /// <summary>Who recorded it.</summary>
    public required SealedName By { get; init; }

    /// <summary>When it was measured, where that differs from <see cref="At"/>.</summary>
    public DateTimeOffset? MeasuredAt { get; init; }

    public required Sheet Sheet { get; init; }

    /// <summary>The single readings behind the sheet's values, where they were kept.</summary>
    public IReadOnlyList<Observation> Observations { get; init; } = [];

    /// <summary>The values of the sheet that were worked out of several readings.</summary>
    public IEnumerable<SeveralReadings> ReadTwice => Observations.GroupBy(one => one.Path)
        .Select(one => SeveralReadings.Of(one.Key, [.. one.Select(taken => new SingleReading(taken.Text, taken.Turned, taken.Trial ?? 1))], Sheet)).OfType<SeveralReadings>();

    /// <summary>What was left unmeasured on purpose, and why.</summary>
    public IReadOnlyList<LeftUnmeasured> NotMeasured { get; init; } = [];

    /// <summary>The numbered seal or tag on the ball, as printed on it.</summary>
    public string? Tag { get; init; }

    /// <summary>What stands for the work done to the ball since the inspection that this one replaces; the text is kept apart.</summary>
    public string? WorkDoneHash { get; init; }

    /// <summary>What the event added to the edition, its supplements aside, which the verdict names with their hashes.</summary>
    public JudgingTerms Terms { get; init; } = JudgingTerms.None;

    /// <summary>The version of the program that judged.</summary>
    public required string Engine { get; init; }

    public required Verdict Verdict { get; init; }
}

/// <summary>A person as a register entry names one: an opaque id, and the name's hash under that person's salt.</summary>
public sealed record SealedName(PersonId Person, string Hash);

/// <summary>A member of the sheet left unmeasured on purpose; the reason itself is kept apart and stands here as its hash.</summary>
public sealed record LeftUnmeasured(string Path, string ReasonHash);
