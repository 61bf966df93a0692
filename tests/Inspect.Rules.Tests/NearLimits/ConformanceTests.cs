using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Integration;

namespace Inspect.Rules.Tests.NearLimits;

/// <summary>Numbers of JCGM 106:2012 (its inputs from memory, the results worked out again) and of the normal distribution.</summary>
public class ConformanceTests
{
    /// <summary>The normal distribution function (Abramowitz and Stegun, tables 26.1 and 26.2,
    /// rounded there; digits from memory).</summary>
    [Theory]
    [InlineData("-5", 2.866515718791939e-7)]
    [InlineData("-3", 0.001349898031630095)]
    [InlineData("-1.645", 0.04998490553912138)]
    [InlineData("0", 0.5)]
    [InlineData("1", 0.8413447460685429)]
    [InlineData("1.96", 0.9750021048517795)]
    [InlineData("3", 0.9986501019683699)]
    [InlineData("50", 1)]
    public void Probability_LimitInUncertaintiesFromTheReading_IsThatOfTheTables(string limit, double probability) =>
        Assert.Equal(1, Conformance.Probability(Between(null, limit), 0, 1) / probability, 1e-9);

    /// <summary>JCGM 106:2012, one upper limit and two limits.</summary>
    [Theory]
    [InlineData(null, "-5.40", "-5.47", "0.05", 0.919243)]
    [InlineData("9.3", "12.5", "10.7", "0.7", 0.972186)]
    public void Probability_ExamplesOfJcgm106_AreMet(string? least, string? most, string reading, string u, double probability) =>
        Assert.Equal(probability, Conformance.Probability(Between(least, most), Number(reading), Number(u)), 5e-7);

    /// <summary>JCGM 106:2012: acting only when 99.9 % sure of being over 100, with u of 2 % of the reading,
    /// begins at 106.588 (printed 107).</summary>
    [Theory]
    [InlineData("106.5875", false)]
    [InlineData("106.5877", true)]
    public void Probability_ActWhenSure_BeginsWhereJcgm106Says(string reading, bool sure) =>
        Assert.Equal(sure, 1 - Conformance.Probability(Between(null, "100"), Number(reading), Number(reading) * 0.02m) >= 0.999);

    /// <summary>JCGM 106:2012, risks of a process N(1500, 0.12) with u = 0.04 and 1500 +/- 0.2, without
    /// and with a guard band of 2 u.</summary>
    /// <remarks>The consumer's risk first. The figures were worked out again by Simpson's rule outside this program.</remarks>
    [Theory]
    [InlineData("0", 0.0189422, 0.0372078)]
    [InlineData("2", 0.0004686, 0.2476696)]
    public void Moved_ProcessOfJcgm106_HasItsRisks(string factor, double consumer, double producer)
    {
        var tolerance = Between("1499.8", "1500.2");
        var acceptance = DecisionRule.Moved(tolerance, Number(factor) * 0.04m);

        // The chance of being accepted is the conformance of the true value with the acceptance limits: the error is symmetric.
        double Joint(double value) => Normal.PDF(1500, 0.12, value) * Conformance.Probability(acceptance, Seam.ToDecimal(value), 0.04m);
        double Rejected(double value) => Normal.PDF(1500, 0.12, value) - Joint(value);
        var outside = Integrate(Joint, 1498.8, 1499.8) + Integrate(Joint, 1500.2, 1501.2);
        Assert.Equal(consumer, outside, 1e-7);
        Assert.Equal(producer, Integrate(Rejected, 1499.8, 1500.2), 1e-7);
    }

    /// <summary>Side weight of at most 3 oz read to 0.1 oz, repeatability and inspectors 0.03 oz each: u and p by
    /// ILAC-G8:09/2019 and JCGM 106:2012.</summary>
    [Theory]
    [InlineData("2.90", 0.9743)]
    [InlineData("2.95", 0.8351)]
    [InlineData("3.00", 0.5)]
    [InlineData("3.05", 0.1649)]
    [InlineData("3.10", 0.0257)]
    public void Probability_BallNearThreeOunces_IsThatOfTheTable(string ounces, double probability) =>
        Assert.Equal(
            probability, Conformance.Probability(Side.Limit, Number(ounces) * Units.GramsPerOunce, Side.Uncertainty.Standard()), 5e-5);

    /// <summary>The same ball-shaped case: u 0.051316 oz, acceptance limits 2.9156 oz at 1.645 u (5 % risk) and 2.8974
    /// oz at 2 u (ISO 14253-1:2017).</summary>
    [Fact]
    public void Standard_BallNearThreeOunces_IsTheRootOfTheSumOfSquares()
    {
        var u = Side.Uncertainty.Standard() / Units.GramsPerOunce;
        Assert.Equal(0.051316m, u, 6);
        Assert.Equal(2.9156m, 3 - (1.645m * u), 4);
        Assert.Equal(2.8974m, 3 - (2 * u), 4);
        Assert.Equal(Side.Uncertainty.Standard(), new Uncertainty(
            RuleQuantity.LeftRight, Side.Ounces("0.1 oz"), Side.Ounces("0.03 oz"), Side.Ounces("0.03 oz")).Standard(Statistic.Size));
    }

    /// <summary>JCGM 100:2008: a mean of n has its repeatability divided by the root of n; a difference has twice the variance.</summary>
    [Fact]
    public void Standard_AverageAndSpread_FollowTheGum()
    {
        var points = new Uncertainty(RuleQuantity.Hardness, Side.Points("1"), Side.Points("2"), Side.Points("1.5"));
        Assert.Equal(Seam.ToDecimal(Math.Sqrt((1 / 12.0) + (4 / 3.0) + 2.25)), points.Standard(Statistic.Average, 3), 12);
        Assert.Equal(Seam.ToDecimal(Math.Sqrt(2 * ((1 / 12.0) + 4))), points.Standard(Statistic.Spread), 12);
    }

    private static double Integrate(Func<double, double> of, double from, double to) => GaussLegendreRule.Integrate(of, from, to, 512);

    private static Limit Between(string? least, string? most) => new(
        least is null ? null : new Bound(Number(least), true, least), most is null ? null : new Bound(Number(most), true, most));

    private static decimal Number(string text) => decimal.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
