namespace Inspect.Ball.Tests;

/// <summary>The depth chart's points, bands and marks.</summary>
/// <remarks>
/// Source: the drilled ball behind each point is held to outside values in
/// <see cref="MassPropertiesOfTests"/>; the chart is defined by this project.
/// </remarks>
public sealed class DepthChartTests
{
    private static readonly DrilledHole Thumb = Described.AtArc(6.75, 0, 31.0 / 32, 2.75);

    [Fact]
    public void Compute_DeclaredBall_HasItsBestValuesInsideTheBand()
    {
        DrilledHole[] holes = [Described.Middle, Described.Ring, Thumb];
        var chart = DepthChartOf.Compute(Described.Sym15, holes, 2, legalDepthIn: 4.5);

        Assert.Equal(73, chart.Points.Count);
        Assert.Equal(0, chart.Points[0].DepthIn);
        Assert.Equal(4.5, chart.Points[^1].DepthIn);
        Assert.Equal(EstimateBasis.DeclaredFigures, chart.Basis);
        Assert.Equal((2.75, 4.5, 4.25), (chart.PresentDepthIn, chart.LegalDepthIn, chart.CentreDepthIn));
        Close.Within(4.25 - 2.48, chart.TurningDepthIn, 1e-6);
        Assert.All(chart.Points, point =>
        {
            var exact = MassPropertiesOf.Compute(Described.Sym15, [Described.Middle, Described.Ring, Thumb.WithDepth(point.DepthIn)]);
            Close.Within(exact.PrincipalRgIn.LowIn, point.LowRgIn!.Value.Best, 1e-5, "low RG");
            Close.Within(exact.PrincipalRgIn.HighIn, point.HighRgIn!.Value.Best, 1e-5, "high RG");
            Close.Within(exact.TotalDifferentialIn, point.TotalDifferentialIn!.Value.Best, 1e-5, "total");
            Close.Within(exact.RemovedOz[2], point.RemovedOz.Best, 1e-3, "removed");
            Assert.InRange(point.LowRgIn.Value.Best, point.LowRgIn.Value.Low, point.LowRgIn.Value.High);
        });
        Assert.True(chart.Points[56].LowRgChangeIn.High - chart.Points[56].LowRgChangeIn.Low > 0.001,
            "The band is honest: ΔRG is known to a factor of two.");
    }

    [Fact]
    public void Compute_NothingDeclared_ShowsOnlyChanges()
    {
        var chart = DepthChartOf.Compute(Described.Even15, [Thumb], 0);

        Assert.Equal(EstimateBasis.Illustration, chart.Basis);
        Assert.Null(chart.LegalDepthIn);
        Assert.All(chart.Points,
            point => Assert.True(point.LowRgIn is null && point.HighRgIn is null && point.TotalDifferentialIn is null));
        Assert.Equal(new Estimate(0, 0, 0), chart.Points[0].LowRgChangeIn);

        // Source: the check values C04a and C04c, less the RG of an undrilled even ball.
        var arc = DepthChartOf.Compute(Described.Even15, [Described.AtAngle(90, 0, 31.0 / 32, 2)], 0);
        Close.Within(2.6850023 - 2.687936011, arc.Points[16].LowRgChangeIn.Best, 2e-6);
        Close.Within(0.0105761, arc.Points[48].TotalDifferentialChangeIn.Best, 2e-6);
        Assert.True(arc.Points[16].LowRgChangeIn.HasSign);
    }

    [Fact]
    public void Compute_LayersDescribed_HasNoBand()
    {
        var chart = DepthChartOf.Compute(Described.L3, [Thumb], 0);

        Assert.Equal(EstimateBasis.DescribedLayers, chart.Basis);
        Assert.All(chart.Points, point => Assert.Equal(point.LowRgIn!.Value.Low, point.LowRgIn.Value.High));
    }

    [Fact]
    public void Compute_NoCoreFits_SaysWhyAndStillDraws()
    {
        var chart = DepthChartOf.Compute(Described.Declared(2.66, 0.03, 0), [Thumb], 0);

        Assert.Contains("No core", chart.InteriorReason, StringComparison.Ordinal);
        Close.Within(2.66, chart.Points[0].LowRgIn!.Value.Best, 1e-9);
    }
}
