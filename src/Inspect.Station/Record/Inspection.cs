using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Sheets.Form;
using Inspect.Station.Access;

namespace Inspect.Station.Record;

/// <summary>One recorded inspection: the measurements, the people and the verdict.</summary>
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

    /// <summary>The bowler's id and the hash of the name.</summary>
    public required SealedName Bowler { get; init; }

    /// <summary>The opaque id of the ball, the same for all its inspections.</summary>
    public required string Ball { get; init; }

    /// <summary>The earlier inspection of the same ball that this one replaces.</summary>
    public InspectionNumber? Supersedes { get; init; }

    /// <summary>Who recorded it.</summary>
    public required SealedName By { get; init; }

    /// <summary>When it was measured, if that differs from <see cref="At"/>.</summary>
    public DateTimeOffset? MeasuredAt { get; init; }

    public required Sheet Sheet { get; init; }

    /// <summary>The single readings behind the sheet's values, if they were recorded.</summary>
    public IReadOnlyList<Observation> Observations { get; init; } = [];

    /// <summary>The values of the sheet that were calculated from several readings.</summary>
    public IEnumerable<SeveralReadings> ReadTwice => Observations.GroupBy(one => one.Path)
        .Select(one => SeveralReadings.Of(one.Key, [.. one.Select(taken => new SingleReading(taken.Text, taken.Turned, taken.Trial ?? 1))],
            Sheet)).OfType<SeveralReadings>();

    /// <summary>The paths of readings far from what a ball can have that were confirmed at the table to be read so.</summary>
    public IReadOnlyList<string> Confirmed { get; init; } = [];

    /// <summary>What was left unmeasured on purpose, and why.</summary>
    public IReadOnlyList<LeftUnmeasured> NotMeasured { get; init; } = [];

    /// <summary>The numbered seal or tag on the ball, as printed on it.</summary>
    public string? Tag { get; init; }

    /// <summary>The hash of the text about work done to the ball since the inspection that this one replaces. The
    /// text is stored separately.</summary>
    public string? WorkDoneHash { get; init; }

    /// <summary>The list of approved balls that was read for it, and what that said; null when the event read none.</summary>
    public ListRead? List { get; init; }

    /// <summary>What the event added to the edition, except its supplements: the verdict has their hashes.</summary>
    public JudgingTerms Terms { get; init; } = JudgingTerms.None;

    /// <summary>The version of the program that judged.</summary>
    public required string Engine { get; init; }

    public required Verdict Verdict { get; init; }
}

/// <summary>A person in a register entry: an opaque id, and the hash of the name with that person's salt.</summary>
public sealed record SealedName(PersonId Person, string Hash);

/// <summary>What a list of approved balls said of the ball's model.</summary>
/// <param name="Name">What the list is called.</param>
/// <param name="Sha256">The hash of the version that was read.</param>
/// <param name="Said">Whether the model is listed; null when the list did not have it.</param>
/// <param name="ReasonHash">The hash of the reason for answering otherwise; null when the answer is the list's. The reason is stored
/// separately.</param>
public sealed record ListRead(string Name, string Sha256, Listing? Said, string? ReasonHash);

/// <summary>A member of the sheet left unmeasured on purpose, with the hash of the reason. The reason is stored separately.</summary>
public sealed record LeftUnmeasured(string Path, string ReasonHash);
