namespace Inspect.Ball;

/// <summary>The ball before drilling, computed from its present weight, balance and holes.</summary>
/// <remarks>It needs the density of the inside to a tenth only. So it finds swapped signs,
/// swapped axes and large errors of depth.</remarks>
/// <param name="WeightOz">The weight before drilling; low and high are for a tenth less and a tenth more density at the holes.</param>
/// <param name="MomentOzIn">The first moment before drilling, in oz·in.</param>
/// <param name="MomentLightOzIn">The same for a tenth less density.</param>
/// <param name="MomentDenseOzIn">The same for a tenth more density.</param>
public sealed record UndrilledBall(Estimate WeightOz, Vector MomentOzIn, Vector MomentLightOzIn, Vector MomentDenseOzIn)
{
    private const double DensityUncertainty = 0.1;

    /// <summary>Computes the ball: W0 = W + what was removed, S0 = L · T + its moment.</summary>
    /// <param name="diameterIn">The ball's diameter.</param>
    /// <param name="weightOz">The drilled ball's weight.</param>
    /// <param name="readingsOz">The three static readings along +x, +y and +z of the frame in which the holes are placed.</param>
    /// <param name="scale">The scale that gave these readings.</param>
    /// <param name="holes">The ball's holes.</param>
    /// <exception cref="DescriptionException">A value is out of range, or a hole is not inside the ball.</exception>
    public static UndrilledBall Rebuild(
        double diameterIn, double weightOz, Vector readingsOz, ScaleConstant scale, IReadOnlyList<DrilledHole> holes)
    {
        // At 1 oz/in³ the moments are those of the removed volume. The density then follows from weight and volume.
        var volume = 4 * Math.PI / 3 * diameterIn * diameterIn * diameterIn / 8;
        var ball = BallDescription.Of(diameterIn, weightOz, new Interior.Uniform());
        MassPropertiesOf.ThrowUnlessDrillable(ball, holes);
        var (bores, shape) = (MassPropertiesOf.Bores(ball, holes), Ellipsoid.Ball(ball.RadiusIn));
        var removed = default(Moments);
        for (var i = 0; i < bores.Length; i++)
        {
            removed += Removal.Of(shape, bores[i], Removal.Meeting(bores[i], bores.Take(i)), Accuracy.Figures, new Effort());
        }

        var density = weightOz / (volume - removed.Mass);
        var measured = StaticMoment.FromOunces(readingsOz, scale);
        var (light, dense) = ((1 - DensityUncertainty) * density, (1 + DensityUncertainty) * density);
        return new UndrilledBall(
            new Estimate(weightOz + (light * removed.Mass), weightOz + (density * removed.Mass), weightOz + (dense * removed.Mass)),
            measured + (density * removed.First),
            measured + (light * removed.First),
            measured + (dense * removed.First));
    }
}
