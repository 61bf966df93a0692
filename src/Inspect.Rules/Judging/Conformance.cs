using System.Globalization;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Readings;
using Distribution = MathNet.Numerics.Distributions.Normal;

namespace Inspect.Rules.Judging;

/// <summary>The probability that the true value lies within a limit, given a reading with a normal error (JCGM 106:2012, 7).</summary>
public static class Conformance
{
    /// <summary>A reading within this many standard uncertainties of a limit is near it.</summary>
    private const int NearUncertainties = 3;

    /// <summary>The probability, 0 to 1.</summary>
    /// <param name="limit">The limit.</param>
    /// <param name="reading">The reading, in the limit's base unit.</param>
    /// <param name="standard">The standard uncertainty of the reading in the same unit; above zero.</param>
    public static double Probability(Limit limit, decimal reading, decimal standard) =>
        (limit.Most is { } most ? Normal(Seam.ToDouble((most.Value - reading) / standard)) : 1)
        - (limit.Least is { } least ? Normal(Seam.ToDouble((least.Value - reading) / standard)) : 0);

    /// <summary>The probability to three decimals when the reading lies within three standard uncertainties of an end, else null.</summary>
    internal static string? Near(Limit limit, Figure figure, decimal standard) =>
        standard > 0 && Math.Abs(limit.Margin(figure.Sum, figure.Count)) <= NearUncertainties * standard
            ? Probability(limit, figure.Sum / figure.Count, standard).ToString("0.000", CultureInfo.InvariantCulture)
            : null;

    // The standard normal distribution function.
    private static double Normal(double x) => Distribution.CDF(0, 1, x);
}
