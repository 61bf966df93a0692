namespace Inspect.Ball.Tests;

/// <summary>The body fitted to declared figures.</summary>
/// <remarks>Source of the test bodies: derived for this project and closed to 1e-8 by an independent computation.</remarks>
public sealed class CalibratedCoreTests
{
    [Theory]
    [InlineData(2.480, 0.050, 0, 0, 0.77266307, 2.46885643, 2.31426514, 2.31426514, 3.12020555, 0)]
    [InlineData(2.480, 0.050, 0.015, 0, 0.75784533, 2.49715594, 2.21543391, 2.48967554, 3.02975757, 0)]
    [InlineData(2.550, 0.040, 0, 0, 1.01273898, 2.01034977, 2.23846802, 2.23846802, 3.33509066, 0)]
    [InlineData(2.480, 0.050, 0.015, 12.75, 0.75556311, 2.50151462, 2.22264532, 2.49511145, 3.01334818, 0.180478)]
    public void Fit_TestBodies_GivesTheirDensitiesAndAxes(
        double rg, double differential, double intermediate, double top, double filler, double core, double high, double middle,
        double low, double offset)
    {
        var fit = CalibratedCore.Fit(4.25, 240, Interior.Calibrated.Of(rg, differential, intermediate, topMomentOzIn: top));

        Assert.Null(fit.Reason);
        Close.Within(filler, fit.Core!.Filler.GPerCm3, 1e-8, "filler");
        Close.Within(core, fit.Core.Core.GPerCm3, 1e-8, "core");
        Close.Within(new Vector(high, middle, low), fit.Core.SemiAxesIn, 1e-8, "semi-axes");
        Close.Within(offset, fit.Core.OffsetIn, 1e-6, "offset");
    }

    [Theory]
    [InlineData(2.480, 0.050, 0, 0)]
    [InlineData(2.480, 0.050, 0.015, 0)]
    [InlineData(2.480, 0.050, 0.015, 12.75)]
    [InlineData(2.550, 0.040, 0.008, 6)]
    public void Compute_NoHoles_ShowsTheDeclaredFigures(double rg, double differential, double intermediate, double top)
    {
        var ball = MassPropertiesOf.Compute(Described.Declared(rg, differential, intermediate, top), []);

        Assert.Equal(InteriorUsed.Calibrated, ball.Interior);
        Close.Within(240, ball.MassOz, 1e-9);
        Close.Within(new Vector(rg + differential, rg + differential - intermediate, rg), ball.RgIn, 1e-9, "RG");
        Close.Within(new Vector(0, 0, top / 240), ball.CgIn, 1e-9, "CG");
        Close.Within(differential, ball.TotalDifferentialIn, 1e-9);
        Close.Within(intermediate, ball.IntermediateDifferentialIn, 1e-9);
    }

    [Fact]
    public void Compute_LayersL3_HasTheListedWeightAndRg()
    {
        var ball = MassPropertiesOf.Compute(Described.L3, []);

        Close.Within(238.4207787, ball.MassOz, 1e-6);
        Close.Within(238.4207787, Described.L3.GrossOz, 1e-6);
        Close.Within(2.523954966, ball.PrincipalRgIn.LowIn, 1e-9);
        Close.Within(0, ball.TotalDifferentialIn, 1e-12);
    }

    [Theory]
    [InlineData(2.66, 0.03, 0.6, 1.18, 70, "No core")]
    [InlineData(2.65, 0.03, 0.4, 1.26, 70, "stick out")]
    [InlineData(2.48, 0.05, 0.4, 1.18, 25, "denser than the 3.8")]
    [InlineData(2.48, 0.05, 0.85, 1.18, 110, "No core")]
    public void Compute_NoAcceptableCore_KeepsTheFiguresAndSaysWhy(
        double rg, double differential, double cover, double coverDensity, double coreVolume, string reason)
    {
        var declared = Interior.Calibrated.Of(rg, differential, 0, cover, Density.FromGPerCm3(coverDensity), coreVolume, topMomentOzIn: 6);
        var described = BallDescription.Of(8.5, 240, declared);
        var whole = MassPropertiesOf.Compute(described, []);
        var drilled = MassPropertiesOf.Compute(described, Described.Holes("C12"));
        var even = MassPropertiesOf.Compute(Described.Even15, Described.Holes("C12"));

        Assert.Equal(InteriorUsed.Uniform, drilled.Interior);
        Assert.Contains(reason, drilled.InteriorReason, StringComparison.Ordinal);
        Assert.EndsWith("drilled into even density.", drilled.InteriorReason, StringComparison.Ordinal);
        Close.Within(rg, whole.PrincipalRgIn.LowIn, 1e-12);
        Close.Within(differential, whole.TotalDifferentialIn, 1e-12);
        Close.Within(6.0 / 240, whole.CgIn.Z, 1e-12);
        Close.Within(even.MomentOzIn + new Vector(0, 0, 6), drilled.MomentOzIn, 1e-12);
    }
}
