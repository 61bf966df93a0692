using System.Globalization;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Judging;

/// <summary>The probability that the true value lies within a limit, given a reading with a normal error (JCGM 106:2012, 7).</summary>
public static class Conformance
{
    /// <summary>Readings within so many standard uncertainties of a limit are near it.</summary>
    private const int NearUncertainties = 3;

    /// <summary>Above this the series would need ever more terms and the continued fraction is quicker.</summary>
    private const double SeriesUpTo = 3;
    private const int Fractions = 120;

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

    /// <summary>The standard normal distribution function, to about 1e-15.</summary>
    public static double Normal(double x)
    {
        if (double.IsInfinity(x) || Math.Abs(x) > 40)
        {
            return x > 0 ? 1 : 0;
        }

        var density = Math.Exp(-x * x / 2) / Math.Sqrt(2 * Math.PI);
        if (Math.Abs(x) <= SeriesUpTo)
        {
            return 0.5 + (density * Series(x));
        }

        var tail = density / Fraction(Math.Abs(x));
        return x > 0 ? 1 - tail : tail;
    }

    /// <summary>x + x^3/3 + x^5/(3 5) + ..., which is the area from 0 to x over the density at x.</summary>
    private static double Series(double x)
    {
        var (sum, term) = (x, x);
        for (var odd = 3; Math.Abs(term) > 1e-17 * Math.Abs(sum); odd += 2)
        {
            term *= x * x / odd;
            sum += term;
        }

        return sum;
    }

    /// <summary>x + 1/(x + 2/(x + 3/(x + ...))), which is the density over the area beyond x.</summary>
    private static double Fraction(double x)
    {
        var value = x;
        for (var k = Fractions; k > 0; k--)
        {
            value = x + (k / value);
        }

        return value;
    }
}
