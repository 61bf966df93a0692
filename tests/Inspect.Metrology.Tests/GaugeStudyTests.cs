using CsCheck;

namespace Inspect.Metrology.Tests;

/// <summary>Gauge studies against the worked example of the AIAG's Measurement Systems Analysis, fourth edition, 2010.</summary>
/// <remarks>Its readings and printed results were worked out again outside this program to the digits that stand here.</remarks>
public class GaugeStudyTests
{
    private static readonly GaugeTable Aiag = AiagExample.Table();

    [Fact]
    public void ByVariance_AiagExample_HasItsSumsOfSquares()
    {
        var study = GaugeByVariance.Of(Aiag);

        Assert.Equal(88.3619, study.Part.SumOfSquares, 5e-5);
        Assert.Equal(3.1673, study.Inspector.SumOfSquares, 5e-5);
        Assert.Equal(0.3590, study.Interaction.SumOfSquares, 5e-5);
        Assert.Equal(2.7589, study.Repeatability.SumOfSquares, 5e-5);
        Assert.Equal((9, 2, 18, 60), (study.Part.Freedom, study.Inspector.Freedom, study.Interaction.Freedom, study.Repeatability.Freedom));
    }

    [Fact]
    public void ByVariance_AiagExample_PoolsAnInteractionThatChanceExplains()
    {
        var study = GaugeByVariance.Of(Aiag);

        Assert.Equal(0.434, study.Interaction.F!.Value, 5e-4);
        Assert.Equal(0.974, study.Interaction.P!.Value, 5e-4);
        Assert.True(study.IsPooled);
        Assert.Equal("analysis of variance, interaction pooled with repeatability", study.Result.Method);
    }

    [Fact]
    public void ByVariance_AiagExample_HasItsDeviationsSharesAndCategories()
    {
        var result = GaugeByVariance.Of(Aiag).Result;

        Assert.Equal(0.199933, result.Repeatability, 5e-7);
        Assert.Equal(0.226838, result.Reproducibility, 5e-7);
        Assert.Equal(0.302373, result.Gauge, 2e-6);
        Assert.Equal(1.042327, result.Part, 5e-7);
        Assert.Equal(1.0853, result.Total, 5e-5);
        Assert.Equal(18.42, result.PercentOf(result.Repeatability), 5e-3);
        Assert.Equal(20.90, result.PercentOf(result.Reproducibility), 5e-3);
        Assert.Equal(27.86, result.PercentOf(result.Gauge), 5e-3);
        Assert.Equal(96.04, result.PercentOf(result.Part), 5e-3);
        Assert.Equal(4.861, result.CategoriesUntruncated!.Value, 1e-3);
        Assert.Equal((4, GaugeBand.Conditional, 78), (result.Categories, result.Band, result.RepeatabilityFreedom));
    }

    [Fact]
    public void ByVariance_AiagExampleNotPooled_HasItsRepeatability()
    {
        var result = GaugeByVariance.Of(Aiag, pool: false).Result;

        Assert.Equal(0.214435, result.Repeatability, 5e-7);
        Assert.Equal(("analysis of variance with interaction", 60), (result.Method, result.RepeatabilityFreedom));
    }

    [Fact]
    public void ByRange_AiagExample_HasItsConstantsDeviationsAndCategories()
    {
        var study = GaugeByRange.Of(Aiag)!;

        Assert.Equal((0.5908, 0.5231, 0.3146), (study.K1, study.K2, study.K3));
        Assert.Equal(0.2019, study.Result.Repeatability, 5e-5);
        Assert.Equal(0.2297, study.Result.Reproducibility, 5e-5);
        Assert.Equal(0.3058, study.Result.Gauge, 5e-5);
        Assert.Equal(1.1046, study.Result.Part, 5e-5);
        Assert.Equal(1.1461, study.Result.Total, 5e-5);
        Assert.Equal(26.68, study.Result.PercentOf(study.Result.Gauge), 5e-3);
        Assert.Equal(5.09, study.Result.CategoriesUntruncated!.Value, 5e-3);
        Assert.Equal((5, "average and range"), (study.Result.Categories, study.Result.Method));
    }

    /// <summary>K1 of two trials 0.8862, K2 of two appraisers 0.7071 (AIAG, the form); K3 of two to ten
    /// parts runs from 0.7071 to 0.3146.</summary>
    [Theory]
    [InlineData(2, 2, 2, 0.8862, 0.7071, 0.7071)]
    [InlineData(3, 2, 2, 0.8862, 0.7071, 0.5231)]
    [InlineData(5, 3, 3, 0.5908, 0.5231, 0.4030)]
    [InlineData(10, 2, 3, 0.5908, 0.7071, 0.3146)]
    public void ByRange_EachSize_HasThePublishedConstants(int parts, int inspectors, int trials, double k1, double k2, double k3)
    {
        var study = GaugeByRange.Of(Some(parts, inspectors, trials))!;

        Assert.Equal((k1, k2, k3), (study.K1, study.K2, study.K3));
    }

    [Fact]
    public void ByRange_MoreThanTenParts_IsNotWorkedOut() => Assert.Null(GaugeByRange.Of(Some(11, 2, 2)));

    /// <summary>A strong interaction is kept apart: each inspector reads the parts in another order. Worked out by hand.</summary>
    [Fact]
    public void ByVariance_InspectorsWhoDisagreeOnParts_KeepsTheInteraction()
    {
        // Cells average 1, 3 / 3, 1 with readings half a tenth to either side: interaction SS 8, repeatability SS 0.02, 4 degrees.
        double[,,] readings = { { { 0.95, 1.05 }, { 2.95, 3.05 } }, { { 2.95, 3.05 }, { 0.95, 1.05 } } };
        var table = new GaugeTable(["1", "2"], ["A", "B"], readings);

        var study = GaugeByVariance.Of(table);

        Assert.False(study.IsPooled);
        Assert.Equal(8, study.Interaction.SumOfSquares, 1e-9);
        Assert.Equal(1600, study.Interaction.F!.Value, 1e-6);
        Assert.Equal(Math.Sqrt(0.005), study.Result.Repeatability, 1e-12);
        Assert.Equal(Math.Sqrt((8 - 0.005) / 2), study.Result.Reproducibility, 1e-12);
        Assert.Equal(0, study.Result.Part);
    }

    [Fact]
    public void ByVariance_OneInspector_GivesRepeatabilityAlone()
    {
        double[,,] readings = { { { 1.0, 1.2 } }, { { 3.0, 3.2 } } };
        var study = GaugeByVariance.Of(new GaugeTable(["1", "2"], ["A"], readings));

        Assert.Equal(Math.Sqrt(0.02), study.Result.Repeatability, 1e-12);
        Assert.Equal((0, 2, "analysis of variance, one inspector"), (
            study.Result.Reproducibility, study.Result.RepeatabilityFreedom, study.Result.Method));
    }

    [Theory]
    [InlineData(10, GaugeBand.Good)]
    [InlineData(10.01, GaugeBand.Conditional)]
    [InlineData(30, GaugeBand.Conditional)]
    [InlineData(30.01, GaugeBand.Poor)]
    public void Band_AtItsEnds_IsAsPublished(double percent, GaugeBand band)
    {
        // The last digit of a square root must not decide about a band's end.
        var gauge = percent / 100 * (1 - 1e-12);

        Assert.Equal(band, new GaugeResult("", gauge, 0, Math.Sqrt(1 - (gauge * gauge)), 1).Band);
    }

    [Fact]
    public void ByVariance_AnyTable_SplitsTheWholeSumOfSquares() => Drawn.Sample(readings =>
    {
        var (parts, inspectors) = (readings.GetLength(0), readings.GetLength(1));
        var study = GaugeByVariance.Of(
            new GaugeTable([.. Enumerable.Repeat("p", parts)], [.. Enumerable.Repeat("i", inspectors)], readings));
        var mean = readings.Cast<double>().Average();

        var sum =
            study.Part.SumOfSquares + study.Inspector.SumOfSquares + study.Interaction.SumOfSquares + study.Repeatability.SumOfSquares;

        Assert.Equal(readings.Cast<double>().Sum(value => (value - mean) * (value - mean)), sum, 1e-8);
    });

    private static Gen<double[,,]> Drawn => Gen.Select(Gen.Int[2, 6], Gen.Int[1, 4], Gen.Int[2, 4])
        .SelectMany((parts, inspectors, trials) => Gen.Double[-5, 5].Array[parts * inspectors * trials].Select(values =>
        {
            var readings = new double[parts, inspectors, trials];
            Buffer.BlockCopy(values, 0, readings, 0, values.Length * sizeof(double));
            return readings;
        }));

    private static GaugeTable Some(int parts, int inspectors, int trials)
    {
        var readings = new double[parts, inspectors, trials];
        for (var i = 0; i < readings.Length; i++)
        {
            readings[i / (inspectors * trials), i / trials % inspectors, i % trials] = i % 7;
        }

        return new GaugeTable(
            [.. Enumerable.Range(0, parts).Select(i => $"{i}")], [.. Enumerable.Range(0, inspectors).Select(i => $"{i}")], readings);
    }
}
