using CsCheck;
using Inspect.Ball;

namespace Inspect.Advice.Tests;

/// <summary>A ball has the same principal values from whichever frame its holes are described; the invariance of a tensor under
/// rotation.</summary>
public class GripFrameTests
{
    private const double Radius = 4.25;

    private static readonly BallDescription Even = BallDescription.Of(2 * Radius, 240, new Interior.Uniform());

    [Fact]
    public void FromThePin_AnyPin_LeavesTheEvenBallAsItIs() =>
        Gen.Select(Gen.Double[0, 179], Gen.Double[-180, 180], Gen.Double[5, 120], Gen.Double[-180, 180], Gen.Double[-0.5, 0.5])
            .Sample((pinAngle, pinAzimuth, angle, azimuth, pitch) =>
        {
            DrilledHole[] holes =
            [
                DrilledHole.Of(HolePlacement.AtAngle(angle, azimuth), 1, 2.5, pitchSouthIn: pitch, pitchEastIn: -pitch / 2),
                DrilledHole.Of(HolePlacement.AtArc(2.5, 270), 1.1, 2, pitchSouthIn: 0.375),
                DrilledHole.Of(HolePlacement.AtAngle(0, 0), 0.9, 1.5, pitchEastIn: 0.25),
            ];
            var pin = GripFrame.DirectionOf(HolePlacement.AtAngle(pinAngle, pinAzimuth), Radius);
            var before = MassPropertiesOf.Compute(Even, holes);
            var after = MassPropertiesOf.Compute(Even, [.. holes.Select(hole => GripFrame.FromThePin(hole, Radius, pin, null))]);

            Assert.Equal(before.MassOz, after.MassOz, 1e-6);
            Assert.Equal(before.MomentOzIn.Length, after.MomentOzIn.Length, 1e-6);
            Assert.Equal(before.MomentOzIn.Dot(pin), after.MomentOzIn.Z, 1e-6);
            Assert.Equal(before.PrincipalRgIn.LowIn, after.PrincipalRgIn.LowIn, 1e-7);
            Assert.Equal(before.PrincipalRgIn.HighIn, after.PrincipalRgIn.HighIn, 1e-7);
        }, iter: 60);

    [Fact]
    public void FromThePin_HoleOnThePin_StandsAtTheOrigin()
    {
        var place = HolePlacement.AtArc(3, 75);
        var hole = DrilledHole.Of(place, 1, 2, pitchSouthIn: 0.25);

        var seen = GripFrame.FromThePin(hole, Radius, GripFrame.DirectionOf(place, Radius), null);

        Assert.Equal(0, seen.Placement.AngleRad(Radius), 1e-12);
        Assert.Equal(0.25, seen.PitchIn, 1e-9);
    }

    [Fact]
    public void FromThePin_MassBias_LiesAtAzimuthNothing()
    {
        var pin = GripFrame.DirectionOf(HolePlacement.AtArc(3, 75), Radius);
        var bias = HolePlacement.AtAngle(100, -30);

        var seen = GripFrame.FromThePin(DrilledHole.Of(bias, 1, 2), Radius, pin, GripFrame.DirectionOf(bias, Radius));

        Assert.Equal(0, seen.Placement.AzimuthDeg, 1e-9);
    }
}
