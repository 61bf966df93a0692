namespace Inspect.Ball;

/// <summary>How wide one hole would have to be for a wanted change in static ounces, in cover
/// material and in material of the mean density.</summary>
/// <param name="DenseIn">The diameter when the wall is of the denser of the two: make this cut
/// first. Null when no diameter is enough.</param>
/// <param name="LightIn">The diameter when it is of the lighter.</param>
/// <param name="MostChangeOz">The most that widening to the limit can change.</param>
/// <param name="Reason">Why no diameter is enough; null when one is.</param>
public sealed record Widening(double? DenseIn, double? LightIn, Estimate MostChangeOz, string? Reason)
{
    /// <summary>Finds the diameters for a change of the reading along an axis; depth and pitch stay as they are.</summary>
    /// <exception cref="DescriptionException">A hole is not inside the ball, at its own width or at the widest.</exception>
    public static Widening ToChange(
        BallDescription ball, IReadOnlyList<DrilledHole> holes, int index, Vector axis, double changeOz, ScaleConstant scale,
        double widestIn = 25.0 / 16)
    {
        ArgumentNullException.ThrowIfNull(ball);
        ArgumentNullException.ThrowIfNull(holes);
        var unitMoment = new UnitMoment(ball, holes, index, axis);
        var hole = holes[index];
        if (widestIn <= hole.DiameterIn)
        {
            return new Widening(null, null, new Estimate(0, 0, 0), "The hole is already as wide as allowed.");
        }

        MassPropertiesOf.ThrowUnlessDrillable(ball, [hole.WithDiameter(widestIn)]);
        var start = unitMoment.Of(hole);
        var gain = start - unitMoment.Of(hole.WithDiameter(widestIn));
        if (gain * changeOz <= 0)
        {
            return new Widening(null, null, new Estimate(0, 0, 0), "Widening this hole moves the reading the other way.");
        }

        var cover = Density.FromGPerCm3(Interior.Calibrated.UsualCoverGPerCm3);
        var (light, dense) = cover < ball.MeanDensity ? (cover, ball.MeanDensity) : (ball.MeanDensity, cover);
        var best = StaticMoment.ToOunces(ball.MeanDensity.OzPerIn3 * gain, scale);
        var (inLight, inDense) = (StaticMoment.ToOunces(light.OzPerIn3 * gain, scale), StaticMoment.ToOunces(dense.OzPerIn3 * gain, scale));
        var atDense = Diameter(dense, inDense);
        return new Widening(
            atDense,
            Diameter(light, inLight),
            new Estimate(Math.Min(inLight, inDense), best, Math.Max(inLight, inDense)),
            atDense is null ? "No allowed diameter of this hole changes the reading that much." : null);

        double? Diameter(Density density, double most) => Math.Abs(most) < Math.Abs(changeOz)
            ? null
            : Roots.Between(
                diameter =>
                    start - unitMoment.Of(hole.WithDiameter(diameter)) - (StaticMoment.FromOunces(changeOz, scale) / density.OzPerIn3),
                hole.DiameterIn,
                widestIn,
                1e-6);
    }
}
