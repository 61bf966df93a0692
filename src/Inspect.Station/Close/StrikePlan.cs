using Inspect.Station.Access;
using Inspect.Station.Prepare;

namespace Inspect.Station.Close;

/// <summary>A bowler whose name stays, and why.</summary>
/// <param name="Number">The bowler's number.</param>
/// <param name="Bowler">The name.</param>
/// <param name="Why">Why it stays, in a sentence.</param>
public sealed record StayingName(string Number, string Bowler, string Why);

/// <summary>A remark by its key: who wrote it, and its hash in the register.</summary>
public readonly record struct RemarkKey(string Person, string Hash);

/// <summary>What striking the names of an event, or of one of its bowlers, would delete.</summary>
public sealed record StrikePlan
{
    /// <summary>Why nothing can be struck yet, in a sentence; null when it can.</summary>
    public string? Refusal { get; init; }

    /// <summary>The people whose names go.</summary>
    public required IReadOnlyList<PersonId> People { get; init; }

    /// <summary>Whose names stay.</summary>
    public required IReadOnlyList<StayingName> Stays { get; init; }

    /// <summary>How many earlier spellings of their names go.</summary>
    public long EarlierNames { get; init; }

    /// <summary>The remarks that name one of them.</summary>
    public IReadOnlyList<RemarkKey> Remarks { get; init; } = [];

    /// <summary>The photographs of their balls, by their entries in the register.</summary>
    public IReadOnlyList<long> Photographs { get; init; } = [];

    /// <summary>The files of closing reports that may quote such a remark, by their entries in the register.</summary>
    public IReadOnlyList<long> Reports { get; init; } = [];

    /// <summary>The contacts of guardians, by event and entry: all of an event, or those of one bowler.</summary>
    public IReadOnlyList<(string Event, string Entry)> Guardians { get; init; } = [];

    /// <summary>Their unfinished sheets.</summary>
    public IReadOnlyList<string> Unfinished { get; init; } = [];

    /// <summary>What goes, each with its number; what there is none of is left out.</summary>
    public IEnumerable<string> Counted => new (long Many, string One, string More)[]
        {
            (People.Count, "name", "names"),
            (EarlierNames, "earlier name", "earlier names"),
            (Remarks.Count, "remark", "remarks"),
            (Photographs.Count, "photograph", "photographs"),
            (Reports.Count, "file of a closing report", "files of closing reports"),
            (Guardians.Count, "contact of a guardian", "contacts of guardians"),
            (Unfinished.Count, "unfinished sheet", "unfinished sheets"),
        }
        .Where(each => each.Many > 0).Select(each => EventCorrections.Count(each.Many, each.One, each.More));

    /// <summary>All of it in one sentence.</summary>
    public string Sentence => People.Count == 0 ? "No name is left to strike." : $"To be struck: {string.Join(", ", Counted)}.";
}
