using MathNet.Numerics.Distributions;

namespace Inspect.Metrology;

/// <summary>One part of an uncertainty: a standard deviation, and how well it is known.</summary>
/// <param name="Name">Where it comes from.</param>
/// <param name="Standard">The standard uncertainty, zero or more, in any one unit.</param>
/// <param name="Freedom">Degrees of freedom; infinite when it comes from a document.</param>
public sealed record Contribution(string Name, double Standard, double Freedom = double.PositiveInfinity)
{
    /// <summary>The part that a display of steps d adds: d/(2 sqrt 3) (GUM, JCGM 100:2008, F.2.2.1).</summary>
    public static Contribution OfResolution(double step) => new("resolution", step / (2 * Math.Sqrt(3)));
}

/// <summary>Several parts combined as the root of the sum of their squares, with effective degrees of freedom (GUM 5.1 and G.4).</summary>
/// <param name="Parts">The parts combined.</param>
/// <param name="Standard">The combined standard uncertainty.</param>
/// <param name="Freedom">Effective degrees of freedom by Welch and Satterthwaite, not truncated;
/// infinite when those of every part are.</param>
public sealed record CombinedUncertainty(IReadOnlyList<Contribution> Parts, double Standard, double Freedom)
{
    private const double LevelOfConfidence = 0.95;

    /// <summary>Combines parts that do not depend on each other.</summary>
    public static CombinedUncertainty Of(params IReadOnlyList<Contribution> parts)
    {
        var variance = parts.Sum(part => part.Standard * part.Standard);
        var spread = parts.Sum(part => double.IsInfinity(part.Freedom) ? 0 : Math.Pow(part.Standard, 4) / part.Freedom);
        return new CombinedUncertainty(parts, Math.Sqrt(variance), spread > 0 ? variance * variance / spread : double.PositiveInfinity);
    }

    /// <summary>The degrees of freedom truncated to a whole number, at least 1, as in GUM G.4.1; null when infinite.</summary>
    public int? WholeFreedom => double.IsInfinity(Freedom) || Freedom > int.MaxValue ? null : Math.Max(1, (int)Freedom);

    /// <summary>How many standard uncertainties cover 95 % of the values: t for <see cref="WholeFreedom"/>, 1.96 when infinite.</summary>
    public double Coverage => WholeFreedom is { } freedom
        ? StudentT.InvCDF(0, 1, freedom, 1 - ((1 - LevelOfConfidence) / 2))
        : Normal.InvCDF(0, 1, 1 - ((1 - LevelOfConfidence) / 2));
}
