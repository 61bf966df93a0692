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
    /// <param name="ball">The ball before drilling.</param>
    /// <param name="holes">Its holes.</param>
    /// <param name="effort">Counts the work and may stop it.</param>
    /// <exception cref="DescriptionException">A hole is not inside the ball (see <see cref="Check"/>).</exception>
    public static MassProperties Compute(BallDescription ball, IReadOnlyList<DrilledHole> holes, Effort? effort = null)
    {
        ThrowUnlessDrillable(ball, holes);
        var (body, bores, work) = (Body.Of(ball), Bores(ball, holes), effort ?? new Effort());
        var removed = new double[bores.Length];
        var left = body.Whole;
        for (var i = 0; i < bores.Length; i++)
        {
            var met = Removal.Meeting(bores[i], bores.Take(i));
            foreach (var step in body.Steps)
            {
                var gone = Removal.Of(step.Shape, bores[i], met, Accuracy.Figures, work) * step.OzPerIn3;
                (removed[i], left) = (removed[i] + gone.Mass, left - gone);
            }
        }

        return new MassProperties(removed, left, body.Used, body.Reason);
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
}
