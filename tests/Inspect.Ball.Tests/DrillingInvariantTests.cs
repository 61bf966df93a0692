using CsCheck;

namespace Inspect.Ball.Tests;

/// <summary>What holds of any ball and holes, whatever the numbers.</summary>
/// <remarks>
/// Source: the mechanics of rigid bodies. Mass, moment and inertia turn and mirror with the body and add up over its parts; a sphere of
/// even density has an RG of its radius times the root of 2/5.
/// </remarks>
public sealed class DrillingInvariantTests
{
    /// <summary>What is promised of holes that run into each other, of which these make the widest and most entangled.</summary>
    private const double MeetingMassOz = 5e-5;
    private const double MeetingMomentOzIn = 2e-4;

    /// <summary>As much more may be off where a bottom is curved, or three holes share a place.</summary>
    private const double EntangledFactor = 4;

    private static readonly Gen<DrilledHole> AnyHole =
        Gen.Select(Gen.Double[1, 170], Gen.Double[0, 360], Gen.Double[0.25, 1.5], Gen.Double[0.2, 4.4], Gen.Double[-0.5, 0.5],
            Gen.Double[-0.5, 0.5], Gen.Int[0, 2])
            .Select((angle, azimuth, diameter, depth, south, east, bottom) => DrilledHole.Of(
                HolePlacement.AtAngle(angle, azimuth), diameter, depth, DepthTo.Axis, (HoleBottom)bottom, south, east));

    private static readonly Gen<Turn> AnyTurn =
        Gen.Select(Gen.Double[0, 6.3], Gen.Double[0, 3.1], Gen.Double[0, 6.3]).Select((a, b, c) => new Turn(a, b, c));

    [Fact]
    public void Compute_EverythingTurned_KeepsThePrincipalValues() =>
        Gen.Select(AnyHole, AnyHole, AnyTurn).Sample((one, two, turn) =>
        {
            foreach (var ball in new[] { Described.Even15, Described.L3 })
            {
                var straight = MassPropertiesOf.Compute(ball, [one, two]);
                var turned = MassPropertiesOf.Compute(ball, [turn.Of(one), turn.Of(two)]);
                Close.Within(straight.MassOz, turned.MassOz, MeetingMassOz, "mass");
                Close.Within(turn.Of(straight.MomentOzIn), turned.MomentOzIn, MeetingMomentOzIn, "moment");
                Close.Within(straight.PrincipalRgIn.LowIn, turned.PrincipalRgIn.LowIn, Close.RgIn, "low");
                Close.Within(straight.PrincipalRgIn.MiddleIn, turned.PrincipalRgIn.MiddleIn, Close.RgIn, "middle");
                Close.Within(straight.PrincipalRgIn.HighIn, turned.PrincipalRgIn.HighIn, Close.RgIn, "high");
            }
        }, iter: 60);

    [Fact]
    public void Compute_MirroredHole_FlipsTheMomentAcrossTheMirror() =>
        AnyHole.Sample(hole =>
        {
            var mirrored = DrilledHole.Of(
                HolePlacement.AtAngle(hole.Placement.AngleDeg ?? 0, -hole.Placement.AzimuthDeg),
                hole.DiameterIn, hole.DepthIn, hole.DepthTo, hole.Bottom, hole.PitchSouthIn, -hole.PitchEastIn);
            var one = MassPropertiesOf.Compute(Described.Asy15, [hole]);
            var other = MassPropertiesOf.Compute(Described.Asy15, [mirrored]);
            Close.Relatively(one.RemovedOz[0], other.RemovedOz[0], 1e-6, "mass");
            Close.Within(new Vector(one.MomentOzIn.X, -one.MomentOzIn.Y, one.MomentOzIn.Z), other.MomentOzIn, 2e-6, "moment");
        }, iter: 60);

    [Fact]
    public void Compute_ZeroDepth_ChangesNothing() =>
        Gen.Select(AnyHole, Gen.Int[0, 1]).Sample((hole, rim) =>
        {
            var none = DrilledHole.Of(
                hole.Placement, hole.DiameterIn, 0, (DepthTo)rim, hole.Bottom, hole.PitchSouthIn, hole.PitchEastIn);
            var ball = MassPropertiesOf.Compute(Described.Asy15, [none]);
            var whole = MassPropertiesOf.Compute(Described.Asy15, []);
            Assert.Equal(whole.MassOz, ball.MassOz);
            Assert.Equal(whole.MomentOzIn, ball.MomentOzIn);
            Assert.Equal(whole.InertiaAtCgOzIn2, ball.InertiaAtCgOzIn2);
        }, iter: 50);

    [Fact]
    public void Compute_DepthInTwoSteps_AddsUp() =>
        Gen.Select(AnyHole, Gen.Double[0.1, 0.9]).Sample((hole, part) =>
        {
            var once = MassPropertiesOf.Compute(Described.L3, [hole]);
            var twice = MassPropertiesOf.Compute(Described.L3, [hole.WithDepth(part * hole.DepthIn), hole]);
            Close.Within(once.RemovedOz[0], twice.RemovedOz.Sum(), MeetingMassOz, "mass");
            Close.Within(once.MomentOzIn, twice.MomentOzIn, MeetingMomentOzIn, "moment");
            Close.Within(once.TotalDifferentialIn, twice.TotalDifferentialIn, Close.DifferentialIn, "total");
        }, iter: 60);

    /// <summary>The same beside a hole that may meet it. Either sum may be off by what is promised.</summary>
    [Fact]
    public void Compute_DepthInTwoStepsIntoAnotherHole_AddsUp() =>
        Gen.Select(AnyHole, Gen.Double[-20, 20], Gen.Double[-20, 20], Gen.Double[0.3, 0.9]).Sample((hole, nearer, round, part) =>
        {
            var other = Beside(hole, nearer, round, hole.DiameterIn);
            var once = MassPropertiesOf.Compute(Described.L3, [other, hole]);
            var twice = MassPropertiesOf.Compute(Described.L3, [other, hole.WithDepth(part * hole.DepthIn), hole]);
            Close.Within(once.MassOz, twice.MassOz, EntangledFactor * 2 * MeetingMassOz, "mass");
            Close.Within(once.MomentOzIn, twice.MomentOzIn, EntangledFactor * 2 * MeetingMomentOzIn, "moment");
        }, iter: 20);

    /// <summary>What two holes share is summed along the narrower. Of two as wide, a hair more or less decides along which. Either sum may
    /// be off by what is promised.</summary>
    [Fact]
    public void Compute_HolesThatMeet_ShareTheSameAlongEither() =>
        Gen.Select(AnyHole, Gen.Double[-20, 20], Gen.Double[-20, 20]).Sample((hole, nearer, round) =>
        {
            const double hair = 1 + 1e-10;
            var along = MassPropertiesOf.Compute(Described.Asy15, [hole, Beside(hole, nearer, round, hole.DiameterIn * hair)]);
            var across = MassPropertiesOf.Compute(
                Described.Asy15, [hole.WithDiameter(hole.DiameterIn * hair), Beside(hole, nearer, round, hole.DiameterIn)]);
            Close.Within(along.MassOz, across.MassOz, Twice(hole, MeetingMassOz), "mass");
            Close.Within(along.MomentOzIn, across.MomentOzIn, Twice(hole, MeetingMomentOzIn), "moment");
            Close.Within(along.PrincipalRgIn.LowIn, across.PrincipalRgIn.LowIn, Twice(hole, Close.RgIn), "low");
            Close.Within(along.PrincipalRgIn.HighIn, across.PrincipalRgIn.HighIn, Twice(hole, Close.RgIn), "high");
        }, iter: 20);

    /// <summary>How far two sums may be apart that each keep what is promised.</summary>
    private static double Twice(DrilledHole hole, double promised) =>
        (hole.Bottom == HoleBottom.Flat ? 2 : 2 * EntangledFactor) * promised;

    private static DrilledHole Beside(DrilledHole hole, double nearer, double round, double diameter) => DrilledHole.Of(
        HolePlacement.AtAngle(Math.Clamp(hole.Placement.AngleDeg!.Value + nearer, 1, 179), (hole.Placement.AzimuthDeg + round) % 360),
        diameter, hole.DepthIn, hole.DepthTo, hole.Bottom, hole.PitchEastIn, hole.PitchSouthIn);

    [Fact]
    public void Compute_SameHoleTwice_RemovesItOnce() =>
        AnyHole.Sample(hole =>
        {
            var ball = MassPropertiesOf.Compute(Described.Even15, [hole, hole]);
            Close.Within(0, ball.RemovedOz[1], MeetingMassOz);
        }, iter: 60);

    [Fact]
    public void Compute_OppositeEqualHoles_LeavesNoMoment() =>
        Gen.Select(Gen.Double[1, 179], Gen.Double[0, 180], Gen.Double[0.25, 1.5], Gen.Double[0.2, 3])
            .Sample((angle, azimuth, diameter, depth) =>
        {
            var ball = MassPropertiesOf.Compute(
                Described.Asy15, [Described.AtAngle(angle, azimuth, diameter, depth), Described.AtAngle(180 - angle, azimuth + 180,
                    diameter, depth)]);
            Close.Within(Vector.Zero, ball.MomentOzIn, 2e-6, "moment");
        }, iter: 60);

    [Fact]
    public void Compute_OneRadialHoleInAnEvenBall_LeavesTwoEqualPrincipalValues() =>
        Gen.Select(Gen.Double[0, 180], Gen.Double[0, 360], Gen.Double[0.25, 1.5], Gen.Double[0.2, 4.4])
            .Sample((angle, azimuth, diameter, depth) =>
        {
            var ball = MassPropertiesOf.Compute(Described.Even15, [Described.AtAngle(angle, azimuth, diameter, depth)]);
            var nearest = Math.Min(ball.IntermediateDifferentialIn, ball.PrincipalRgIn.MiddleIn - ball.PrincipalRgIn.LowIn);
            Close.Within(0, nearest, 1e-9, "difference of the equal pair");
        }, iter: 100);

    [Fact]
    public void MeanDensity_BallOf185Point9Oz_IsThatOfWater() =>
        Close.Within(1.000, BallDescription.Of(8.5, 185.9, new Interior.Uniform()).MeanDensity.GPerCm3, 5e-4);

    [Fact]
    public void Compute_UndrilledEvenBall_HasTheRgOfASphere() =>
        Close.Within(2.687936011, MassPropertiesOf.Compute(Described.Even15, []).PrincipalRgIn.LowIn, 1e-9);

    /// <summary>Three turns of the whole ball: about z, then y, then z again.</summary>
    private sealed record Turn(double First, double Second, double Third)
    {
        public Vector Of(Vector v) => AboutZ(AboutY(AboutZ(v, First), Second), Third);

        public DrilledHole Of(DrilledHole hole)
        {
            var (outward, south, east) = Frame((hole.Placement.AngleDeg ?? 0) * Math.PI / 180, hole.Placement.AzimuthDeg * Math.PI / 180);
            var lean = Of((hole.PitchSouthIn * south) + (hole.PitchEastIn * east));
            var place = Of(outward);
            var (angle, azimuth) = (Math.Acos(Math.Clamp(place.Z, -1, 1)), Math.Atan2(place.Y, place.X));
            var (_, newSouth, newEast) = Frame(angle, azimuth);
            return DrilledHole.Of(
                HolePlacement.AtAngle(angle * 180 / Math.PI, azimuth * 180 / Math.PI),
                hole.DiameterIn, hole.DepthIn, hole.DepthTo, hole.Bottom, lean.Dot(newSouth), lean.Dot(newEast));
        }

        private static (Vector Outward, Vector South, Vector East) Frame(double angle, double azimuth) => (
            new(Math.Sin(angle) * Math.Cos(azimuth), Math.Sin(angle) * Math.Sin(azimuth), Math.Cos(angle)),
            new(Math.Cos(angle) * Math.Cos(azimuth), Math.Cos(angle) * Math.Sin(azimuth), -Math.Sin(angle)),
            new(-Math.Sin(azimuth), Math.Cos(azimuth), 0));

        private static Vector AboutZ(Vector v, double angle) =>
            new((Math.Cos(angle) * v.X) - (Math.Sin(angle) * v.Y), (Math.Sin(angle) * v.X) + (Math.Cos(angle) * v.Y), v.Z);

        private static Vector AboutY(Vector v, double angle) =>
            new((Math.Cos(angle) * v.X) + (Math.Sin(angle) * v.Z), v.Y, (Math.Cos(angle) * v.Z) - (Math.Sin(angle) * v.X));
    }
}
