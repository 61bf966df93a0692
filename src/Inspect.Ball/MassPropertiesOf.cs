namespace Inspect.Ball;

/// <summary>Computes the mass properties of a described ball with holes; holes that meet are removed once.</summary>
public static class MassPropertiesOf
{
    /// <summary>What keeps the holes from being drilled into the ball, each fault under <c>holes[i]</c>; empty when nothing does.</summary>
    public static IReadOnlyList<DescriptionFault> Check(BallDescription ball, IReadOnlyList<DrilledHole> holes)
    {
        ArgumentNullException.ThrowIfNull(ball);
        ArgumentNullException.ThrowIfNull(holes);
        var faults = new FaultList();
        for (var i = 0; i < holes.Count; i++)
        {
            holes[i].CheckIn(ball.RadiusIn, $"holes[{i}]", faults);
        }

        return faults.Faults;
    }

    /// <summary>The drilled ball's mass, first moment, centre of gravity, radii of gyration and differentials.</summary>
    /// <exception cref="DescriptionException">A hole does not lie in the ball (see <see cref="Check"/>).</exception>
    public static MassProperties Compute(BallDescription ball, IReadOnlyList<DrilledHole> holes)
    {
        ThrowUnlessDrillable(ball, holes);
        return Compute(Body.Of(ball), Bores(ball, holes), Fineness.Figures);
    }

    internal static void ThrowUnlessDrillable(BallDescription ball, IReadOnlyList<DrilledHole> holes)
    {
        if (Check(ball, holes) is { Count: > 0 } faults)
        {
            throw new DescriptionException(faults);
        }
    }

    internal static Bore[] Bores(BallDescription ball, IReadOnlyList<DrilledHole> holes) =>
        [.. holes.Select(hole => Bore.Of(hole, ball.RadiusIn))];

    internal static MassProperties Compute(Body body, ReadOnlySpan<Bore> bores, Fineness fineness)
    {
        var removed = new double[bores.Length];
        var (first, second) = (body.First, body.Second);
        for (var i = 0; i < bores.Length; i++)
        {
            var sum = new MomentSum();
            Removal.Integrate(body.Steps, bores[i], bores[..i], fineness, ref sum);
            removed[i] = sum.MassOz;
            first -= sum.First;
            second -= sum.Second;
        }

        return new MassProperties(removed, body.MassOz - removed.Sum(), first, second, body.Used, body.Reason);
    }
}
