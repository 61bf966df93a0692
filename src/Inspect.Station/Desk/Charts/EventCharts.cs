using Inspect.Rules.Judging;
using Inspect.Station.Prepare;

namespace Inspect.Station.Desk.Charts;

/// <summary>The figures of all charts of an event.</summary>
public sealed record EventCharts
{
    /// <summary>How many inspections were recorded, including those replaced since.</summary>
    public required int Inspections { get; init; }

    public required int Balls { get; init; }

    public required int Passed { get; init; }

    public required int Failed { get; init; }

    public required int Held { get; init; }

    public required int Replaced { get; init; }

    public required IReadOnlyList<RuleCount> Rules { get; init; }

    public required IReadOnlyList<HourCounts> Days { get; init; }

    public required IReadOnlyList<LimitReadings> Readings { get; init; }

    public required IReadOnlyList<FailureShare> Inspectors { get; init; }

    public required IReadOnlyList<FailureShare> Instruments { get; init; }

    public required SecondReadings SecondReadings { get; init; }

    public static EventCharts Of(
        IReadOnlyList<CountedInspection> inspections, Event held, IReadOnlyDictionary<string, string> names) => new()
        {
            Inspections = inspections.Count,
            Balls = inspections.Select(one => one.Ball ?? one.Number).Distinct(StringComparer.Ordinal).Count(),
            Passed = inspections.Count(one => one.Outcome == Outcome.Pass),
            Failed = inspections.Count(one => one.Outcome == Outcome.Fail),
            Held = inspections.Count(one => one.Outcome == Outcome.Hold),
            Replaced = inspections.Count(one => one.SupersededBy is not null),
            Rules = RuleCount.In(inspections),
            Days = HourCounts.Of(inspections, held.Squads),
            Readings = LimitReadings.Of(inspections),
            Inspectors = FailureShare.ByInspector(inspections, id => names.GetValueOrDefault(id, "name struck")),
            Instruments = FailureShare.ByInstrument(inspections),
            SecondReadings = SecondReadings.Of(inspections),
        };
}
