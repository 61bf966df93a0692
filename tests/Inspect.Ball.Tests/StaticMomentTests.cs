namespace Inspect.Ball.Tests;

/// <summary>First moments, and ounces on a scale.</summary>
/// <remarks>Source: equilibrium of moments, worked by hand where a figure is given; else the check values.</remarks>
public sealed class StaticMomentTests
{
    /// <summary>A 1 by 2 1/2 in hole in an even 15 lb ball, from the top towards the side. Source: derived for this project, 1.45686 oz
    /// at 2.99264 in.</summary>
    [Theory]
    [InlineData(0, -4.35986, 0)]
    [InlineData(7, -4.32736, -0.53133)]
    [InlineData(15, -4.21130, -1.12842)]
    [InlineData(30, -3.77575, -2.17993)]
    [InlineData(45, -3.08289, -3.08289)]
    [InlineData(90, 0, -4.35986)]
    public void Moment_HoleTiltedTowardsTheSide_TurnsWithIt(double angle, double top, double side)
    {
        var drilled = MassPropertiesOf.Compute(Described.Even15, [Described.AtAngle(angle, 0, 1, 2.5)]);

        Close.Within(new Vector(side, 0, top), drilled.MomentOzIn, 0.6e-5, "moment");
        Close.Within(1.45686, drilled.RemovedOz[0], 0.6e-5);
    }

    [Fact]
    public void ToOunces_OtherScales_DivideByTheirConstant()
    {
        Close.Within(-2.364489, StaticMoment.ToOunces(-10.049076, ScaleConstant.Known(4.25)), 1e-6);
        Close.Within(-3.152651, StaticMoment.ToOunces(-10.049076, ScaleConstant.Known(3.1875)), 1e-6);
        Close.Within(12.75, StaticMoment.FromOunces(3, ScaleConstant.Known(4.25)), 1e-12);
        Close.Within(new Vector(4, -8, 12), StaticMoment.FromOunces(new Vector(1, -2, 3), ScaleConstant.Known(4)), 0);
        Close.Within(new Vector(1, -2, 3), StaticMoment.ToOunces(new Vector(4, -8, 12), ScaleConstant.Known(4)), 0);
    }

    [Fact]
    public void Uncalibrated_AnyBall_IsItsRadius() =>
        Assert.Equal((4.25, false), (ScaleConstant.Uncalibrated(4.25).Inches, ScaleConstant.Uncalibrated(4.25).IsCalibrated));
}
