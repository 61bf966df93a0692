namespace Inspect.Ball.Tests;

/// <summary>How a described hole is understood, and which descriptions are refused.</summary>
/// <remarks>Source: geometry worked by hand where a figure is given; the ranges are defined by this project.</remarks>
public sealed class DrilledHoleTests
{
    /// <summary>Source: R − √(R² − a²) worked by hand for 1, 31/32 and 1 9/16 in on a radius of 4.25 in.</summary>
    [Theory]
    [InlineData(1, 0.0295)]
    [InlineData(31.0 / 32, 0.0277)]
    [InlineData(25.0 / 16, 0.0724)]
    public void AxisDepthIn_MeasuredFromTheRim_AddsTheCap(double diameter, double added)
    {
        var hole = DrilledHole.Of(HolePlacement.AtAngle(40, 0), diameter, 2.5, DepthTo.Rim, pitchEastIn: 0.375);

        Close.Within(2.5 + added, hole.AxisDepthIn(4.25), 0.6e-4);
        Assert.Equal(2.5, DrilledHole.Of(HolePlacement.AtAngle(40, 0), diameter, 2.5).AxisDepthIn(4.25));
    }

    [Fact]
    public void Compute_RimAndAxisDepthOfOneHole_AreTheSameHole()
    {
        var rim = DrilledHole.Of(HolePlacement.AtArc(3, 0), 1, 2.5, DepthTo.Rim);
        var axis = DrilledHole.Of(HolePlacement.AtArc(3, 0), 1, 2.5 + rim.RimBelowSurfaceIn(4.25));

        Assert.Equal(
            MassPropertiesOf.Compute(Described.Even15, [axis]).MomentOzIn, MassPropertiesOf.Compute(Described.Even15, [rim]).MomentOzIn);
    }

    /// <summary>South at the pin is +x and east +y, whatever the azimuth: positive pitch takes more from that side.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(133)]
    public void Compute_PitchAtThePin_LeansTowardsXAndY(double azimuth)
    {
        var south = MassPropertiesOf.Compute(Described.Even15, [Described.AtArc(0, azimuth, 1, 2.5, south: 0.25)]).MomentOzIn;
        var east = MassPropertiesOf.Compute(Described.Even15, [Described.AtArc(0, azimuth, 1, 2.5, east: 0.25)]).MomentOzIn;

        Assert.True(south.X < -0.05, "A lean to the south takes from +x.");
        Close.Within(0, south.Y, 1e-12);
        Assert.True(east.Y < -0.05, "A lean to the east takes from +y.");
        Close.Within(0, east.X, 1e-12);
    }

    /// <summary>The example of a described ball: a hole with east pitch, to the digits printed there.</summary>
    [Fact]
    public void Compute_PitchEast_LeansTheBottomTowardsGrowingAzimuth()
    {
        var ball = MassPropertiesOf.Compute(Described.Even15, Described.Holes("C06"));

        Close.Within(238.4947984, ball.MassOz, 1e-7);
        Assert.True(ball.MomentOzIn.Y < 0, "The bottom leans to +y, so that side is lighter.");
    }

    [Fact]
    public void Of_SeveralWrongValues_NamesThemAll()
    {
        var refused = Assert.Throws<DescriptionException>(() => DrilledHole.Of(
            HolePlacement.AtAngle(10, 0), -1, double.NaN, (DepthTo)7, (HoleBottom)9, double.PositiveInfinity, 6));

        Assert.Equal(
            ["diameter", "depth", "depthTo", "bottom", "pitch.south", "pitch.east"], refused.Faults.Select(fault => fault.Member));
        Assert.Contains("'-1' cannot be: a hole's diameter in inches is more than 0", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Compute_HolesThatDoNotLieInTheBall_AreRefusedWithTheirPlace()
    {
        var refused = Assert.Throws<DescriptionException>(() => MassPropertiesOf.Compute(
            Described.Even15,
            [
                Described.AtArc(14, 0, 1, 1),
                Described.AtArc(1, 0, 1, 8.6),
                DrilledHole.Of(HolePlacement.AtAngle(0, 0), 1, 2, pitchSouthIn: 4),
            ]));

        Assert.Equal(["holes[0].arc", "holes[1].depth", "holes[2].pitch"], refused.Faults.Select(fault => fault.Member));
    }

    [Fact]
    public void BallDescription_WrongValues_AreRefused()
    {
        Members(["diameter", "gross"], () => BallDescription.Of(0, double.NaN, new Interior.Uniform()));
        Members(["gross"], () => BallDescription.Of(8.5, 240, Described.Layers((4.25, 1.2))));
        Members(["interior.layers[0].radius"], () => BallDescription.OfLayers(8.6, Described.Layers((4.25, 1.2))));
        Members(["interior.layers[1].radius"], () => Described.Layers((4.25, 1.2), (4.3, 1.0)));
        Members(["interior.layers"], () => Described.Layers());
        Members(["interior.layers[0].density"], () => Described.Layers((4.25, 0)));
        Members(["interior.declared.intermediate"], () => Interior.Calibrated.Of(2.48, 0.05, 0.06));
        Members(["interior.declared.rg"], () => BallDescription.Of(8.5, 240, Interior.Calibrated.Of(3.6, 0.05)));
        Members(["arc", "azimuth"], () => HolePlacement.AtArc(-1, 400));
        Members(["angle"], () => HolePlacement.AtAngle(181, 0));
        Members(["density"], () => Density.FromGPerCm3(-1));
    }

    private static void Members(string[] expected, Func<object> describe) =>
        Assert.Equal(expected, Assert.Throws<DescriptionException>(describe).Faults.Select(fault => fault.Member));
}
