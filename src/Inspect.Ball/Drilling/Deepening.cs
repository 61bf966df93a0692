namespace Inspect.Ball;

/// <summary>How deep one hole would have to be for a wanted change in static ounces, for dense and for light material under it.</summary>
/// <param name="DenseIn">The depth when the bottom is in a dense core: make this cut first, then weigh
/// again. Null when no depth is enough.</param>
/// <param name="EvenIn">The depth in material of the ball's mean density.</param>
/// <param name="LightIn">The depth in a light inside.</param>
/// <param name="MostUsefulIn">The depth beyond which the effect on the axis turns back, or the deepest allowed if that is less.</param>
/// <param name="MostChangeOz">The most that deepening to that depth can change, in light, even and dense material.</param>
/// <param name="Reason">Why no depth is enough even in dense material; null when one is.</param>
public sealed record Deepening(double? DenseIn, double? EvenIn, double? LightIn, double MostUsefulIn, Estimate MostChangeOz, string? Reason)
{
    /// <summary>Finds the depths for a change of the reading along an axis. Depths are measured as the hole's own.</summary>
    /// <param name="ball">The ball before drilling; only its size and weight are used.</param>
    /// <param name="holes">All its holes. Material that another hole has removed does not count.</param>
    /// <param name="index">The hole to deepen.</param>
    /// <param name="axis">The unit direction in which the reading is positive. For top weight it points from the ball's centre to the
    /// grip's centre.</param>
    /// <param name="changeOz">The wanted change of that reading, negative to make it less.</param>
    /// <param name="scale">The scale that will weigh it.</param>
    /// <param name="deepestIn">The greatest depth to consider.</param>
    /// <exception cref="DescriptionException">A hole is not inside the ball, at its own depth or at the deepest.</exception>
    public static Deepening ToChange(
        BallDescription ball, IReadOnlyList<DrilledHole> holes, int index, Vector axis, double changeOz, ScaleConstant scale,
        double deepestIn = 4.5)
    {
        ArgumentNullException.ThrowIfNull(holes);
        var unitMoment = new UnitMoment(ball, holes, index, axis);
        var hole = holes[index];
        MassPropertiesOf.ThrowUnlessDrillable(ball, [hole.WithDepth(deepestIn)]);
        var most = Math.Min(deepestIn, TurningDepth(hole, ball.RadiusIn, axis) ?? deepestIn);
        if (most <= hole.DepthIn)
        {
            return None(hole, $"The hole is already as deep as helps, {FaultList.Text(Math.Max(hole.DepthIn, most))} in.");
        }

        var start = unitMoment.Of(hole);
        var gain = start - unitMoment.Of(hole.WithDepth(most));
        if (gain * changeOz <= 0)
        {
            return None(hole, "Deepening this hole moves the reading the other way.");
        }

        var densities = new[] { PlausibleInteriors.Light, ball.MeanDensity, PlausibleInteriors.DenseCore };
        var changes = densities.Select(density => StaticMoment.ToOunces(density.OzPerIn3 * gain, scale)).ToArray();
        double?[] depths = [.. densities.Select((density, i) => Math.Abs(changes[i]) < Math.Abs(changeOz)
            ? (double?)null
            : Roots.Between(
                depth => start - unitMoment.Of(hole.WithDepth(depth)) - (StaticMoment.FromOunces(changeOz, scale) / density.OzPerIn3),
                hole.DepthIn,
                most,
                1e-6))];
        return new Deepening(
            depths[2],
            depths[1],
            depths[0],
            most,
            new Estimate(changes.Min(), changes[1], changes.Max()),
            depths[2] is null ? "Even in dense material no depth of this hole changes the reading that much." : null);
    }

    /// <summary>The depth at which one more cut has no lever about the axis' plane and beyond which it works backwards; null when there
    /// is no such depth.</summary>
    private static double? TurningDepth(DrilledHole hole, double ballRadius, Vector axis)
    {
        var bore = Bore.Of(hole, ballRadius);
        var slope = bore.Axis.Dot(axis);
        if (Math.Abs(slope) < 1e-9)
        {
            return null;
        }

        var further = (-bore.Foot.Dot(axis) / slope) - bore.MeanBottomHeight;
        return further > 0 ? hole.DepthIn + further : null;
    }

    private static Deepening None(DrilledHole hole, string reason) =>
        new(null, null, null, hole.DepthIn, new Estimate(0, 0, 0), reason);
}
