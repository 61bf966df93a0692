namespace Inspect.Ball.Tests;

/// <summary>What computations cost in lines summed, on any machine, and that a caller can stop them.</summary>
/// <remarks>Source: counted once; the bounds leave room for a third more.</remarks>
public sealed class EffortTests
{
    private static readonly IReadOnlyList<DrilledHole> Grip = Described.Holes("C12");
    private static readonly ScaleConstant Usual = ScaleConstant.Known(4.25);

    /// <summary>Without pitches the two fingers run into each other.</summary>
    private static readonly DrilledHole[] Meeting =
        [Described.AtArc(2.35, 106, 31.0 / 32, 2), Described.AtArc(2.35, 74, 15.0 / 16, 2), Described.AtArc(2.5, 270, 17.0 / 16, 2.75)];

    [Fact]
    public void Mass_ThreeHolesInTheCalibratedBall_TakesFewLines() =>
        Takes(1_100, effort => MassPropertiesOf.Compute(Described.Asy15, Grip, effort));

    [Fact]
    public void Mass_FingersThatMeet_TakesFewLines() =>
        Takes(45_000, effort => MassPropertiesOf.Compute(Described.Asy15, Meeting, effort));

    /// <summary>Where the bottom lies inside a shape, one sum serves all depths: 73 points, 15 shapes.</summary>
    [Fact]
    public void DepthChart_TakesFewerLinesThanPointsTimesShapes() =>
        Takes(110_000, effort => DepthChartOf.Compute(Described.Asy15, Grip, 2, effort: effort));

    [Fact]
    public void Deeper_FingersThatMeet_TakesFewLines() =>
        Takes(24_000, effort => FurtherCut.Deeper(Described.Even15, Meeting, 0, Vector.UnitZ, -0.2, Usual, effort: effort));

    [Fact]
    public void Wider_FingersThatMeet_TakesFewLines() =>
        Takes(20_000, effort => FurtherCut.Wider(Described.Even15, Meeting, 0, Vector.UnitZ, -0.2, Usual, effort: effort));

    [Fact]
    public void Changed_FingersThatMeet_TakesFewLines() =>
        Takes(65_000, effort =>
            new DrilledBall(Described.Asy15, Meeting, Usual, effort).Changed([Meeting[0].WithDepth(2.5), .. Meeting[1..]]));

    /// <summary>Holes that stay cost nothing the second time, and a hole asked about again costs nothing at all.</summary>
    [Fact]
    public void Changed_OneOfThreeHoles_CostsThatHoleOnce()
    {
        var effort = new Effort();
        var ball = new DrilledBall(Described.Asy15, Grip, Usual, effort);
        var three = effort.Lines;
        DrilledHole[] deeper = [Grip[0].WithDepth(2.25), Grip[1], Grip[2]];

        var first = ball.Changed(deeper);
        var four = effort.Lines;

        Assert.InRange(four - three, 1, three * 2 / 3);
        Assert.Equal(first, ball.Changed(deeper));
        Assert.Equal(four, effort.Lines);
    }

    [Fact]
    public void Compute_CallerHasLeft_Stops()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        var gone = new Effort(source.Token);

        Assert.Throws<OperationCanceledException>(() => MassPropertiesOf.Compute(Described.Asy15, Grip, gone));
        Assert.Throws<OperationCanceledException>(() => DepthChartOf.Compute(Described.Asy15, Grip, 2, effort: gone));
        Assert.Throws<OperationCanceledException>(() => new DrilledBall(Described.Asy15, Grip, Usual, gone));
        Assert.Equal(0, gone.Lines);
    }

    private static void Takes(long most, Func<Effort, object> compute)
    {
        var effort = new Effort();
        compute(effort);
        Assert.InRange(effort.Lines, 1, most);
    }
}
