namespace Inspect.Ball;

/// <summary>Computes the mass properties of a described ball with holes. Where holes meet, the material is removed once.</summary>
public static class MassPropertiesOf
{
    /// <summary>The faults that keep the holes from being drilled into the ball, each under
    /// <c>holes[i]</c>; empty when there are none.</summary>
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
    /// <exception cref="DescriptionException">A hole is not inside the ball (see <see cref="Check"/>).</exception>
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
        var drilled = Remove(body, bores, fineness, removed);
        return new MassProperties(removed, drilled.MassOz, drilled.First, drilled.Second, body.Used, body.Reason);
    }

    /// <summary>What is left of a body, and the density that further holes meet.</summary>
    internal static Body Without(Body body, ReadOnlySpan<Bore> bores, Fineness fineness) =>
        Remove(body, bores, fineness, new double[bores.Length]);

    private static Body Remove(Body body, ReadOnlySpan<Bore> bores, Fineness fineness, Span<double> removed)
    {
        var left = body;
        for (var i = 0; i < bores.Length; i++)
        {
            var sum = new MomentSum();
            Removal.Integrate(body.Steps, bores[i], bores[..i], fineness, ref sum);
            removed[i] = sum.MassOz;
            left = left with { MassOz = left.MassOz - sum.MassOz, First = left.First - sum.First, Second = left.Second - sum.Second };
        }

        return left;
    }
}
