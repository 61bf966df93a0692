namespace Inspect.Ball.Tests;

/// <summary>The quadrature against points thrown into the ball: seeded, four standard errors, a few parts in ten thousand.</summary>
/// <remarks>Source: the definitions of mass and moments as integrals, summed by a method that shares nothing with the quadrature.</remarks>
public sealed class MonteCarloTests
{
    private const int Points = 120_000;

    private static readonly double Even = Described.Even15.MeanDensity.OzPerIn3;

    [Theory]
    [InlineData("C05")]
    [InlineData("C06")]
    [InlineData("C07")]
    [InlineData("C09")]
    [InlineData("C10")]
    [InlineData("C12")]
    public void Compute_EvenBall_AgreesWithPointsThrown(string name) =>
        Agrees(Described.Even15, _ => Even, Described.Holes(name));

    [Theory]
    [InlineData("C05")]
    [InlineData("C07")]
    [InlineData("C10")]
    [InlineData("C12")]
    public void Compute_LayeredBall_AgreesWithPointsThrown(string name) =>
        Agrees(
            Described.L3,
            point => Density.OzPerIn3InOneGPerCm3 * (point.Length > 3.65 ? 1.18 : point.Length > 2.60 ? 0.80 : 2.30),
            Described.Holes(name));

    /// <summary>Core and filler as listed among the check values for this body.</summary>
    [Fact]
    public void Compute_CalibratedBall_AgreesWithPointsThrown()
    {
        var semi = new Vector(2.21543391, 2.48967554, 3.02975757);
        Agrees(
            Described.Asy15,
            point =>
            {
                var core = Math.Pow(point.X / semi.X, 2) + Math.Pow(point.Y / semi.Y, 2) + Math.Pow(point.Z / semi.Z, 2) <= 1;
                return Density.OzPerIn3InOneGPerCm3 * (point.Length > 3.65 ? 1.18 : core ? 2.49715594 : 0.75784533);
            },
            [Described.AtArc(2.9, 106, 1, 2.75, south: 0.3, east: 0.25), Described.AtAngle(50, 20, 1.25, 3.5, HoleBottom.Hemisphere)]);
    }

    /// <summary>Finger holes that run into each other, with every shape of bottom: what they share counts once.</summary>
    [Theory]
    [InlineData(HoleBottom.Flat, HoleBottom.Flat)]
    [InlineData(HoleBottom.Cone118, HoleBottom.Hemisphere)]
    [InlineData(HoleBottom.Hemisphere, HoleBottom.Cone118)]
    [InlineData(HoleBottom.Flat, HoleBottom.Cone118)]
    public void Compute_HolesThatMeet_AgreesWithPointsThrown(HoleBottom first, HoleBottom second)
    {
        DrilledHole[] holes =
        [
            DrilledHole.Of(HolePlacement.AtArc(2.35, 106), 31.0 / 32, 2.75, bottom: first, pitchEastIn: -0.1),
            DrilledHole.Of(HolePlacement.AtArc(2.35, 78), 31.0 / 32, 3.25, DepthTo.Rim, second),
            DrilledHole.Of(HolePlacement.AtArc(1.9, 92), 0.75, 3, bottom: HoleBottom.Flat, pitchSouthIn: 0.2),
        ];
        Agrees(Described.Even15, _ => Even, holes);

        var shares = MassPropertiesOf.Compute(Described.Even15, holes).RemovedOz;
        var alone = holes.Select(hole => MassPropertiesOf.Compute(Described.Even15, [hole]).RemovedOz[0]).ToArray();
        Close.Relatively(alone[0], shares[0]);
        Assert.True(shares[1] < alone[1] - 0.005, "The second hole's share leaves out what the first took.");
        Assert.True(shares[2] < alone[2] - 0.1, "The third hole's share leaves out what the first two took.");
    }

    private static void Agrees(BallDescription ball, Func<Vector, double> density, IReadOnlyList<DrilledHole> holes)
    {
        var thrown = new MonteCarlo(seed: 20270314).Sample(density, holes, Points);
        var drilled = MassPropertiesOf.Compute(ball, holes);
        Close.Within(thrown.MassOz, drilled.RemovedOz.Sum(), 4 * thrown.MassError, "removed");
        Close.Within(thrown.Moment, -drilled.MomentOzIn, 4 * thrown.MomentError, "moment removed");
    }
}
