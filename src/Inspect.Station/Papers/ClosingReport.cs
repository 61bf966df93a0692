using Inspect.Station.Decide;
using Inspect.Station.Desk.Charts;

namespace Inspect.Station.Papers;

/// <summary>A set of rules that was applied, and in how many inspections.</summary>
/// <param name="Name">What people call them.</param>
/// <param name="Mark">Id, version and hash.</param>
/// <param name="Inspections">How many.</param>
public sealed record RulesUsed(string Name, RulesMark Mark, int Inspections);

/// <summary>One day of play in numbers.</summary>
public sealed record DayOfPlay(DateOnly Day, int Inspections, int Passed, int Failed, int Held);

/// <summary>An inspection that a later one replaced, with both outcomes.</summary>
public sealed record Replacement(string Number, string Was, string By, string Is);

/// <summary>The content of an event's closing report, at one state of the register.</summary>
public sealed record ClosingReport
{
    /// <summary>Unique: the event and how many entries the register had.</summary>
    public required string Number { get; init; }

    /// <summary>When it was made, by the clock at the venue.</summary>
    public required DateTimeOffset IssuedAt { get; init; }

    /// <summary>Who asked for it.</summary>
    public required string IssuedBy { get; init; }

    /// <summary>The station by the name its register is signed under.</summary>
    public required string Station { get; init; }

    public required string Event { get; init; }

    /// <summary>The days of play in words.</summary>
    public required string Days { get; init; }

    public required string TimeZone { get; init; }

    public required string Authority { get; init; }

    /// <summary>The first and the last time a ball was measured, at the venue; null when none was.</summary>
    public required (DateTime First, DateTime Last)? Measured { get; init; }

    public required int Entries { get; init; }

    public required int Balls { get; init; }

    public required int Inspections { get; init; }

    public required IReadOnlyList<RulesUsed> Editions { get; init; }

    public required IReadOnlyList<RulesUsed> Supplements { get; init; }

    /// <summary>How readings near a limit were decided, a sentence each with how many inspections.</summary>
    public required IReadOnlyList<(string Sentence, int Inspections)> Decisions { get; init; }

    /// <summary>What the inspections that count now amount to, with how many.</summary>
    public required IReadOnlyList<(string Words, int Inspections)> Standing { get; init; }

    public required IReadOnlyList<DayOfPlay> PerDay { get; init; }

    public required IReadOnlyList<RuleCount> Rules { get; init; }

    public required IReadOnlyList<Replacement> Replaced { get; init; }

    /// <summary>The rulings in force, by the number ruled on.</summary>
    public required IReadOnlyList<(string Number, string Sentence)> Rulings { get; init; }

    public required IReadOnlyList<OpenItem> Open { get; init; }

    /// <summary>Who recorded, with how many inspections.</summary>
    public required IReadOnlyList<(string Name, int Inspections)> Inspectors { get; init; }

    /// <summary>The instruments that readings name, with how many findings rest on them.</summary>
    public required IReadOnlyList<FailureShare> Instruments { get; init; }

    public required long RegisterSize { get; init; }

    /// <summary>The root over all entries, lower-case hexadecimal.</summary>
    public required string RegisterRoot { get; init; }

    /// <summary>The signed checkpoint of that state, as it can be checked.</summary>
    public required string Checkpoint { get; init; }

    /// <summary>The fingerprint of the key that signed it.</summary>
    public required string Fingerprint { get; init; }
}
