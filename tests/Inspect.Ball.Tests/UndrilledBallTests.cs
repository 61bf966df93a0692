namespace Inspect.Ball.Tests;

/// <summary>The ball before drilling, rebuilt from readings that drilling it would give.</summary>
/// <remarks>
/// Source: the inverse of what <see cref="MassPropertiesOfTests"/> holds to outside values; the tenth of a layered inside is a judgement.
/// </remarks>
public sealed class UndrilledBallTests
{
    private const double Scale = 4;

    [Fact]
    public void Rebuild_ReadingsOfADrilledEvenBall_GivesItBack()
    {
        var drilled = MassPropertiesOf.Compute(Described.Even15, Described.Holes("C12"));
        var topWeight = new Vector(0.4, 0.2, 12);
        var readings = StaticMoment.ToOunces(drilled.MomentOzIn + topWeight, ScaleConstant.Known(Scale));
        var rebuilt = UndrilledBall.Rebuild(8.5, drilled.MassOz, readings, ScaleConstant.Known(Scale), Described.Holes("C12"));

        Close.Within(240, rebuilt.WeightOz.Best, 1e-9);
        Close.Within(topWeight, rebuilt.MomentOzIn, 1e-9);
        Close.Within(0.1 * drilled.RemovedOz.Sum(), rebuilt.WeightOz.High - rebuilt.WeightOz.Best, 1e-9);
        Close.Within(0.2 * (topWeight.Z - (drilled.MomentOzIn.Z + topWeight.Z)), rebuilt.MomentDenseOzIn.Z - rebuilt.MomentLightOzIn.Z,
            1e-9);
    }

    /// <summary>A layered inside is a tenth off at most: what is rebuilt stays within the range told.</summary>
    [Fact]
    public void Rebuild_ReadingsOfALayeredBall_StaysNearTheTruth()
    {
        var drilled = MassPropertiesOf.Compute(Described.L3, Described.Holes("C12"));
        var rebuilt = UndrilledBall.Rebuild(
            8.5, drilled.MassOz, StaticMoment.ToOunces(drilled.MomentOzIn, ScaleConstant.Known(Scale)), ScaleConstant.Known(Scale),
            Described.Holes("C12"));

        Assert.InRange(Described.L3.GrossOz, rebuilt.WeightOz.Low, rebuilt.WeightOz.High);
        Assert.InRange(0, rebuilt.MomentLightOzIn.Z, rebuilt.MomentDenseOzIn.Z);
    }

    [Fact]
    public void Rebuild_SignOfTheTopReadingSwapped_PointsAwayFromTheTop()
    {
        var drilled = MassPropertiesOf.Compute(Described.Even15, Described.Holes("C12"));
        var truth = StaticMoment.ToOunces(drilled.MomentOzIn + new Vector(0, 0, 22), ScaleConstant.Known(Scale));
        var swapped = truth with { Z = -truth.Z };

        Assert.True(truth.Z > 2);
        Assert.InRange(Rebuilt(truth).MomentOzIn.Length / Scale, 5.4, 5.6);
        Assert.True(Rebuilt(swapped).MomentOzIn.Length / Scale < 0.6, "What is left is far from any top weight a ball is made with.");

        UndrilledBall Rebuilt(Vector readings) =>
            UndrilledBall.Rebuild(8.5, drilled.MassOz, readings, ScaleConstant.Known(Scale), Described.Holes("C12"));
    }
}
