namespace Inspect.Ball.Tests;

/// <summary>Depths and diameters for a wanted change of the reading, on the three-hole grip of case C12.</summary>
/// <remarks>
/// Source of the worked example and the table: derived for this project on a grip like C12 but not in every pitch the same, and with the
/// core of a fitted body as dense material. So they are held to 1/16 in and 1/64 oz; the closed form below is held exactly.
/// </remarks>
public sealed class FurtherCutTests
{
    private static readonly IReadOnlyList<DrilledHole> Grip = Described.Holes("C12");
    private static readonly ScaleConstant Usual = ScaleConstant.Known(4.25);

    [Theory]
    [InlineData(4.25, 2.47, 3.07, 3.39)]
    [InlineData(3.1875, 2.34, 2.73, 2.90)]
    public void Deeper_MiddleFingerForTopWeight_GivesTheWorkedExample(double scale, double dense, double even, double light)
    {
        var answer = FurtherCut.Deeper(Described.Even15, Grip, 0, Vector.UnitZ, -0.20, ScaleConstant.Known(scale));

        Close.Within(dense, answer.DenseIn!.Value, 1.0 / 16, "dense");
        Close.Within(even, answer.EvenIn!.Value, 1.0 / 16, "even");
        Close.Within(light, answer.LightIn!.Value, 1.0 / 16, "light");

        // The axis passes the centre plane of the top a little beyond its nearest point to the centre, because of the pitch.
        Assert.InRange(answer.MostUsefulIn, 4.25, 4.28);
    }

    [Fact]
    public void Deeper_ThumbForTopWeight_HasNoSolutionInAnEvenBall()
    {
        var answer = FurtherCut.Deeper(Described.Even15, Grip, 2, Vector.UnitZ, -0.20, Usual);

        Assert.Null(answer.EvenIn);
        Assert.Null(answer.LightIn);
        Close.Within(3.68, answer.DenseIn!.Value, 1.0 / 32, "dense");
        Close.Within(-0.11, answer.MostChangeOz.Best, 0.006, "most in an even ball");
    }

    [Fact]
    public void Deeper_DepthFound_ChangesTheReadingByWhatWasWanted()
    {
        var answer = FurtherCut.Deeper(Described.Even15, Grip, 0, Vector.UnitZ, -0.15, Usual);
        var effect = DrillingEffect.Of(
            Described.Even15, Grip, [Grip[0].WithDepth(answer.EvenIn!.Value), Grip[1], Grip[2]], Usual);

        Close.Within(-0.15, effect.Z.Best, 1e-5);
        Assert.True(effect.Z.Low < -0.15 && effect.Z.High > -0.15, "The range holds denser and lighter insides.");
    }

    /// <summary>Most side-weight failures have no deepening remedy: 0.3 oz is never reached on an ordinary grip.</summary>
    [Theory]
    [InlineData(0, 0.3)]
    [InlineData(1, -0.3)]
    public void Deeper_FingerForThreeTenthsOfSideWeight_HasNoSolution(int finger, double change)
    {
        var answer = FurtherCut.Deeper(Described.Even15, Grip, finger, Vector.UnitX, change, Usual);

        Assert.Null(answer.DenseIn);
        Assert.InRange(Math.Abs(answer.MostChangeOz.Best), 0.1, 0.2);
    }

    [Theory]
    [InlineData(2, 0.1, 4.5)]
    [InlineData(4.4, -0.1, 4.5)]
    [InlineData(2, -0.1, 2)]
    public void Deeper_OtherWayOrAlreadyAsDeepAsHelps_ChangesNothing(double depth, double change, double deepest)
    {
        var answer = FurtherCut.Deeper(Described.Even15, [Grip[0].WithDepth(depth)], 0, Vector.UnitZ, change, Usual, deepest);

        Assert.Equal((null, depth, default), (answer.DenseIn, answer.MostUsefulIn, answer.MostChangeOz));
    }

    /// <summary>A radial flat hole: (R − h')² = (R − h)² − 2·L·ΔT / (ρ·A·cos), by hand from the moment of a cylinder.</summary>
    [Theory]
    [InlineData(0, 1, 2, 0.15)]
    [InlineData(35, 15.0 / 16, 1.75, 0.2)]
    [InlineData(60, 1.25, 2.5, 0.1)]
    public void Deeper_RadialHole_IsTheClosedForm(double angle, double diameter, double depth, double less)
    {
        var answer = FurtherCut.Deeper(Described.Even15, [Described.AtAngle(angle, 20, diameter, depth)], 0, Vector.UnitZ, -less, Usual);

        var area = Math.PI * diameter * diameter / 4;
        var lever = area * Math.Cos(angle * Math.PI / 180);
        Close.Within(Depth(Density.FromGPerCm3(1.10)), answer.LightIn!.Value, 1e-5, "light");
        Close.Within(Depth(Described.Even15.MeanDensity), answer.EvenIn!.Value, 1e-5, "even");
        Close.Within(Depth(Density.FromGPerCm3(2.50)), answer.DenseIn!.Value, 1e-5, "dense");

        double Depth(Density density) =>
            4.25 - Math.Sqrt(Math.Pow(4.25 - depth, 2) - (2 * 4.25 * less / (density.OzPerIn3 * lever)));
    }

    /// <summary>A radial hole works on its own axis down to the ball's centre and no further, whatever its bottom.</summary>
    [Theory]
    [InlineData(HoleBottom.Flat, 4.25)]
    [InlineData(HoleBottom.Cone118, 4.45)]
    [InlineData(HoleBottom.Hemisphere, 4.4167)]
    public void Deeper_RadialHole_IsMostUsefulWhereItsBottomReachesTheCentre(HoleBottom bottom, double most)
    {
        DrilledHole[] holes = [Described.AtAngle(0, 0, 1, 2, bottom)];
        var answer = FurtherCut.Deeper(Described.Even15, holes, 0, Vector.UnitZ, -0.1, Usual);
        var moments = new[] { -0.05, 0, 0.05 }
            .Select(off => MassPropertiesOf.Compute(Described.Even15,
                [holes[0].WithDepth(answer.MostUsefulIn + off)]).MomentOzIn.Z).ToArray();

        Close.Within(most, answer.MostUsefulIn, 0.001);
        Assert.True(moments[1] < moments[0] && moments[1] < moments[2], "The moment is least there.");
    }

    /// <summary>Source: derived for this project, thumb 1 1/16 to 1 1/4 in, even ball, L = 4.25.</summary>
    [Fact]
    public void Wider_Thumb_ReachesTheListedChange()
    {
        var wide = DrillingEffect.Of(Described.Even15, Grip, [Grip[0], Grip[1], Grip[2].WithDiameter(1.25)], Usual);
        var answer = FurtherCut.Wider(Described.Even15, Grip, 2, Vector.UnitZ, wide.Z.Best, Usual, widestIn: 1.5);

        Close.Within(-0.37, wide.Z.Best, 0.006);
        Close.Within(0.27, wide.Y.Best, 0.006);
        Close.Within(1.25, answer.DenseIn!.Value, 1e-4);
        Assert.True(answer.LightIn > answer.DenseIn, "Lighter material asks for a wider hole.");
        Assert.Null(FurtherCut.Wider(Described.Even15, Grip, 2, Vector.UnitZ, 0.1, Usual).DenseIn);
        Assert.Null(FurtherCut.Wider(Described.Even15, Grip, 2, Vector.UnitZ, -3, Usual).DenseIn);
        Assert.Null(FurtherCut.Wider(Described.Even15, Grip, 2, Vector.UnitZ, -0.1, Usual, widestIn: 1).DenseIn);
    }

    /// <summary>Source: derived for this project, deepening on the same grip, L = 4.25; the first figure is of an even ball.</summary>
    [Theory]
    [InlineData(0, 3, 0.06, -0.11, -0.19)]
    [InlineData(0, 4.25, 0.13, -0.16, -0.27)]
    [InlineData(1, 4.25, -0.12, -0.15, -0.26)]
    [InlineData(2, 4, 0, 0.14, -0.11)]
    public void DrillingEffect_DeeperHole_GivesTheListedOunces(int index, double depth, double side, double finger, double top)
    {
        var after = Grip.Select((hole, i) => i == index ? hole.WithDepth(depth) : hole).ToArray();
        var effect = DrillingEffect.Of(Described.Even15, Grip, after, Usual);

        Close.Within(side, effect.X.Best, 1.0 / 64, "side");
        Close.Within(finger, effect.Y.Best, 1.0 / 64, "finger");
        Close.Within(top, effect.Z.Best, 1.0 / 64, "top");
        Assert.Equal(EstimateBasis.Illustration, effect.Basis);
    }
}
