namespace Inspect.Metrology;

/// <summary>A gauge study computed from averages and ranges, as it is done by hand.</summary>
/// <param name="AverageRange">The average range of one inspector's readings of one part.</param>
/// <param name="InspectorDifference">The highest less the lowest average of an inspector.</param>
/// <param name="PartRange">The highest less the lowest average of a part.</param>
/// <param name="K1">Turns the average range into a standard deviation.</param>
/// <param name="K2">Turns the inspectors' difference into a standard deviation.</param>
/// <param name="K3">Turns the parts' range into a standard deviation.</param>
/// <param name="Result">The standard deviations.</param>
/// <remarks>
/// K1 is 1/d2 for the number of trials, K2 and K3 are 1/d2* for one range of so many values (AIAG, Measurement Systems Analysis, fourth
/// edition, form and appendix C: 0.8862 and 0.5908, 0.7071 and 0.5231, 0.3146 for ten parts; d2 of four and more trials from the control
/// chart constants of ASTM E2587). Repeatability's degrees of freedom are about nine tenths of those by analysis of variance.
/// </remarks>
public sealed record GaugeByRange(
    double AverageRange, double InspectorDifference, double PartRange, double K1, double K2, double K3, GaugeResult Result)
{
    /// <summary>The most parts, inspectors or trials: for more, no constant is published here.</summary>
    public const int MostOfAnything = 10;

    private const double FreedomKept = 0.9;

    // By the number of values in a range, from two.
    private static readonly double[] OneOverD2 = [0.8862, 0.5908, 0.4857, 0.4299, 0.3946, 0.3698, 0.3512, 0.3367, 0.3249];
    private static readonly double[] OneOverD2Star = [0.7071, 0.5231, 0.4467, 0.4030, 0.3742, 0.3534, 0.3375, 0.3249, 0.3146];

    /// <summary>Computes a study; null when there are more than ten parts, inspectors or trials.</summary>
    public static GaugeByRange? Of(GaugeTable table)
    {
        var (parts, inspectors, trials) = (table.Parts.Count, table.Inspectors.Count, table.Trials);
        if (Math.Max(parts, Math.Max(inspectors, trials)) > MostOfAnything)
        {
            return null;
        }

        var (k1, k2, k3) = (OneOverD2[trials - 2], inspectors == 1 ? 0 : OneOverD2Star[inspectors - 2], OneOverD2Star[parts - 2]);
        var averageRange = Enumerable.Range(0, parts)
            .SelectMany(part => Enumerable.Range(0, inspectors).Select(inspector => Range(table.Cell(part, inspector)))).Average();
        var difference = Range(Enumerable.Range(0, inspectors).Select(inspector => table.OfInspector(inspector).Average()));
        var partRange = Range(Enumerable.Range(0, parts).Select(part => table.OfPart(part).Average()));
        var repeatability = averageRange * k1;
        var between = Math.Max(0, (difference * k2 * difference * k2) - (repeatability * repeatability / (parts * trials)));
        var freedom = (int)(FreedomKept * parts * inspectors * (trials - 1));
        return new GaugeByRange(averageRange, difference, partRange, k1, k2, k3,
            new GaugeResult("average and range", repeatability, Math.Sqrt(between), partRange * k3, Math.Max(1, freedom)));
    }

    private static double Range(IEnumerable<double> values)
    {
        var all = values.ToList();
        return all.Max() - all.Min();
    }
}
