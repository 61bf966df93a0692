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

/// <summary>How fast the tables worked on one day.</summary>
/// <param name="Day">The day of measuring, at the venue.</param>
/// <param name="First">The first inspection.</param>
/// <param name="Last">The last one.</param>
/// <param name="Inspections">How many.</param>
/// <param name="PerHour">Inspections an hour between the first and the last; null where that is less than <see cref="Shortest"/>.</param>
/// <param name="MinutesABall">The median of the minutes from one inspection to the same person's next; breaks, which are longer than
/// <see cref="Break"/>, are left out; null where there is none.</param>
public sealed record DayAtTheTables(DateOnly Day, DateTime First, DateTime Last, int Inspections, double? PerHour, double? MinutesABall)
{
    /// <summary>A day shorter than this has no rate.</summary>
    public static readonly TimeSpan Shortest = TimeSpan.FromMinutes(10);

    /// <summary>Whoever records nothing for longer than this has a break.</summary>
    public static readonly TimeSpan Break = TimeSpan.FromMinutes(30);

    /// <summary>Every day of measuring, in order.</summary>
    public static IReadOnlyList<DayAtTheTables> Of(IEnumerable<CountedInspection> inspections) =>
        [.. inspections.GroupBy(one => DateOnly.FromDateTime(one.At)).OrderBy(day => day.Key).Select(day =>
        {
            var (first, last, count) = (day.Min(one => one.At), day.Max(one => one.At), day.Count());
            return new DayAtTheTables(
                day.Key, first, last, count, last - first < Shortest ? null : (count - 1) / (last - first).TotalHours, Median(day));
        })];

    private static double? Median(IEnumerable<CountedInspection> day)
    {
        var gaps = day.GroupBy(one => one.By).SelectMany(person => person.Select(one => one.At).Order().ToList() is var times
                ? times.Zip(times.Skip(1), (one, next) => next - one) : [])
            .Where(gap => gap <= Break).Select(gap => gap.TotalMinutes).Order().ToList();
        return gaps.Count == 0 ? null : (gaps[(gaps.Count - 1) / 2] + gaps[gaps.Count / 2]) / 2;
    }
}

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

    /// <summary>What is to become of the names of the bowlers, in a sentence.</summary>
    public required string Names { get; init; }

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

    /// <summary>How fast the tables worked, by day.</summary>
    public required IReadOnlyList<DayAtTheTables> AtTheTables { get; init; }

    public required IReadOnlyList<RuleCount> Rules { get; init; }

    public required IReadOnlyList<Replacement> Replaced { get; init; }

    /// <summary>The rulings in force, by the number ruled on.</summary>
    public required IReadOnlyList<(string Number, string Sentence)> Rulings { get; init; }

    /// <summary>How many balls were compared with their slips on the lanes, and how many of them were not the ball as recorded.</summary>
    public required (long All, long Differing) SpotChecks { get; init; }

    public required IReadOnlyList<OpenItem> Open { get; init; }

    /// <summary>Who recorded, with how many inspections.</summary>
    public required IReadOnlyList<(string Name, int Inspections)> Inspectors { get; init; }

    /// <summary>The instruments that readings name, with how many findings rest on them.</summary>
    public required IReadOnlyList<FailureShare> Instruments { get; init; }

    /// <summary>How many checks of each instrument were good and how many failed, from the first day of play to the report.</summary>
    public required IReadOnlyDictionary<string, (int Good, int Failed)> Checks { get; init; }

    public required long RegisterSize { get; init; }

    /// <summary>The root over all entries, lower-case hexadecimal.</summary>
    public required string RegisterRoot { get; init; }

    /// <summary>The signed checkpoint of that state, as it can be checked.</summary>
    public required string Checkpoint { get; init; }

    /// <summary>The fingerprint of the key that signed it.</summary>
    public required string Fingerprint { get; init; }
}
