using Inspect.Metrology;
using Inspect.Rules.Judging;

namespace Inspect.Station.Desk.Charts;

/// <summary>How often something failed, and out of how many, for one of several that are compared.</summary>
/// <param name="Name">The inspector or the instrument.</param>
/// <param name="Failed">How often it failed.</param>
/// <param name="Of">Out of how many; there is no share of none.</param>
public sealed record FailureShare(string Name, int Failed, int Of)
{
    public double Share => (double)Failed / Of;

    /// <summary>The 95 % interval of the share.</summary>
    public BinomialInterval Interval { get; } = BinomialInterval.Of(Failed, Of);

    /// <summary>The share of inspections that failed, by inspector.</summary>
    public static IReadOnlyList<FailureShare> ByInspector(IEnumerable<CountedInspection> inspections, Func<string, string> nameOf) =>
        Ordered(inspections.GroupBy(inspection => inspection.By)
            .Select(group => new FailureShare(nameOf(group.Key), group.Count(one => one.Outcome == Outcome.Fail), group.Count())));

    /// <summary>The share of readings outside their rule, by the instrument they were taken with.</summary>
    /// <remarks>A finding counts once for each instrument that its readings name. Names that differ only in
    /// capitals are the same.</remarks>
    public static IReadOnlyList<FailureShare> ByInstrument(IEnumerable<CountedInspection> inspections) =>
        Ordered(inspections.SelectMany(ReadingsOf).GroupBy(reading => reading.Instrument, StringComparer.OrdinalIgnoreCase)
            .Select(group => new FailureShare(group.Key, group.Count(reading => reading.Outcome == Outcome.Fail), group.Count())));

    /// <summary>All of them together.</summary>
    public static FailureShare? Together(IReadOnlyList<FailureShare> shares) =>
        shares.Count == 0 ? null : new FailureShare("all together", shares.Sum(each => each.Failed), shares.Sum(each => each.Of));

    private static IEnumerable<(string Instrument, Outcome Outcome)> ReadingsOf(CountedInspection inspection)
    {
        var taken = inspection.Observations.Where(observation => observation.Instrument is not null)
            .Select(observation => (Instrument: observation.Instrument!, Path: WithoutIndexOfReading(observation.Path)))
            .Distinct().ToList();
        if (taken.Count == 0)
        {
            yield break;
        }

        foreach (var finding in inspection.Findings)
        {
            if (finding is { Measured: not null, Path: { } read })
            {
                var path = WithoutIndexOfReading(read);
                foreach (var reading in taken)
                {
                    if (reading.Path == path)
                    {
                        yield return (reading.Instrument, finding.Outcome);
                    }
                }
            }
        }
    }

    // hardness.readings[2] belongs to the finding of hardness.readings; holes[2].depth is the depth of that hole.
    private static string WithoutIndexOfReading(string path) => path.EndsWith(']') ? path[..path.LastIndexOf('[')] : path;

    private static List<FailureShare> Ordered(IEnumerable<FailureShare> shares) =>
        [.. shares.OrderByDescending(each => each.Of).ThenBy(each => each.Name, StringComparer.Ordinal)];
}
