namespace Inspect.Ball;

/// <summary>The ball before drilling, rebuilt from what it weighs now, how it balances and the holes it has.</summary>
/// <remarks>It needs no inside known better than by a tenth of the density, and so catches swapped signs and axes and gross slips of
/// depth.</remarks>
/// <param name="WeightOz">The weight before drilling; low and high for a tenth less and more density where the holes are.</param>
/// <param name="MomentOzIn">The first moment before drilling, in oz·in.</param>
/// <param name="MomentLightOzIn">The same for a tenth less density.</param>
/// <param name="MomentDenseOzIn">The same for a tenth more density.</param>
/// <param name="RemovedOz">What the holes took, together.</param>
/// <param name="ImbalanceOz">The whole of the undrilled imbalance in ounces of the scale, whatever its direction.</param>
public sealed record UndrilledBall(
    Estimate WeightOz, Vector MomentOzIn, Vector MomentLightOzIn, Vector MomentDenseOzIn, Estimate RemovedOz, double ImbalanceOz)
{
    private const double DensityUncertainty = 0.1;

    /// <summary>Rebuilds the ball: W0 = W + what was removed, S0 = L · T + its moment.</summary>
    /// <param name="diameterIn">The ball's diameter.</param>
    /// <param name="weightOz">The drilled ball's weight.</param>
    /// <param name="readingsOz">The three static readings along +x, +y and +z of the frame in which the holes are placed.</param>
    /// <param name="scale">The scale that gave them.</param>
    /// <param name="holes">The holes the ball has.</param>
    /// <exception cref="DescriptionException">A value is out of range, or a hole does not lie in the ball.</exception>
    public static UndrilledBall Rebuild(
        double diameterIn, double weightOz, Vector readingsOz, ScaleConstant scale, IReadOnlyList<DrilledHole> holes)
    {
        // At 1 oz/in³ the moments are those of the removed volume; the density then follows from weight and volume.
        var volume = 4 * Math.PI / 3 * diameterIn * diameterIn * diameterIn / 8;
        var ball = BallDescription.Of(diameterIn, weightOz, new Interior.Uniform());
        MassPropertiesOf.ThrowUnlessDrillable(ball, holes);
        var bores = MassPropertiesOf.Bores(ball, holes);
        var removed = new MomentSum();
        for (var i = 0; i < bores.Length; i++)
        {
            Removal.Integrate([DensityStep.Ball(1, ball.RadiusIn)], bores[i], bores.AsSpan(0, i), Fineness.Figures, ref removed);
        }

        var density = weightOz / (volume - removed.MassOz);
        var measured = StaticMoment.FromOunces(readingsOz, scale);
        var (light, dense) = ((1 - DensityUncertainty) * density, (1 + DensityUncertainty) * density);
        var moment = measured + (density * removed.First);
        return new UndrilledBall(
            new Estimate(weightOz + (light * removed.MassOz), weightOz + (density * removed.MassOz), weightOz + (dense * removed.MassOz)),
            moment,
            measured + (light * removed.First),
            measured + (dense * removed.First),
            new Estimate(light * removed.MassOz, density * removed.MassOz, dense * removed.MassOz),
            StaticMoment.ToOunces(moment, scale).Length);
    }
}
