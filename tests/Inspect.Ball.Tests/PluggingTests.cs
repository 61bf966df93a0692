using CsCheck;

namespace Inspect.Ball.Tests;

/// <summary>Filling a hole. Source: mass and moments add up over the parts of a body; a plug of the ball's own density gives the ball back.</summary>
public sealed class PluggingTests
{
    [Fact]
    public void After_PlugOfTheBallsOwnDensity_RestoresTheBall() =>
        Gen.Select(Gen.Double[1, 170], Gen.Double[0, 360], Gen.Double[0.25, 1.5], Gen.Double[0.5, 4.4], Gen.Double[-0.4, 0.4], Gen.Int[0,
            2])
            .Sample((angle, azimuth, diameter, depth, east, bottom) =>
            {
                var hole = DrilledHole.Of(
                    HolePlacement.AtAngle(angle, azimuth), diameter, depth, bottom: (HoleBottom)bottom, pitchEastIn: east);
                var plugged = Plugging.After(Described.Even15, [hole], 0, Described.Even15.MeanDensity);
                Close.Within(240, plugged.MassOz, 1e-9);
                Close.Within(0, plugged.RemovedOz[0], 1e-9);
                Close.Within(Vector.Zero, plugged.MomentOzIn, 1e-9);
                Close.Within(0, plugged.TotalDifferentialIn, 1e-9);
            }, iter: 50);

    [Fact]
    public void After_LighterPlugBesideOtherHoles_FillsOnlyItsOwnHole()
    {
        var holes = Described.Holes("C12");
        var plug = Density.FromGPerCm3(Plugging.LightestGPerCm3);
        var plugged = Plugging.After(Described.Even15, holes, 2, plug);
        var drilled = MassPropertiesOf.Compute(Described.Even15, holes);

        var filled = drilled.RemovedOz[2] * plug.OzPerIn3 / Described.Even15.MeanDensity.OzPerIn3;
        Close.Within(drilled.MassOz + filled, plugged.MassOz, 1e-9);
        Close.Within(drilled.RemovedOz.Sum() - filled, plugged.RemovedOz[0], 1e-9);
        Assert.True(plugged.MomentOzIn.Y < drilled.MomentOzIn.Y, "The plug weighs on the thumb's side.");
    }
}
