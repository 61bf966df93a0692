namespace Inspect.Ball;

/// <summary>Computes the depth chart of one hole.</summary>
public static class DepthChartOf
{
    /// <summary>The distance between two depths of a chart, in inches.</summary>
    public const double StepIn = 1.0 / 16;

    /// <summary>The points of a chart: from no hole to 4 1/2 in, both included.</summary>
    public const int PointCount = 73;

    /// <summary>The chart of the hole at <paramref name="index"/>; the other holes stay as they are.</summary>
    /// <param name="ball">The ball before drilling; its interior says whether figures are declared.</param>
    /// <param name="holes">All its holes.</param>
    /// <param name="index">The hole whose depth is varied.</param>
    /// <param name="legalDepthIn">A depth to mark as the greatest allowed.</param>
    /// <exception cref="DescriptionException">A hole is not inside the ball, at its own depth or at 4 1/2 in.</exception>
    public static DepthChart Compute(BallDescription ball, IReadOnlyList<DrilledHole> holes, int index, double? legalDepthIn = null)
    {
        ArgumentNullException.ThrowIfNull(holes);
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, holes.Count);
        MassPropertiesOf.ThrowUnlessDrillable(ball, holes);
        var hole = holes[index];
        MassPropertiesOf.ThrowUnlessDrillable(ball, [hole.WithDepth((PointCount - 1) * StepIn)]);

        var (bodies, basis) = PlausibleInteriors.Of(ball);
        Bore[] others = [.. holes.Where((_, i) => i != index).Select(other => Bore.Of(other, ball.RadiusIn))];
        Curve[] curves = [.. bodies.Select(body => new Curve(MassPropertiesOf.Without(body, others, Fineness.Curves), others))];
        var points = new DepthChartPoint[PointCount];
        for (var i = 0; i < PointCount; i++)
        {
            points[i] = Point(curves, hole.WithDepth(i * StepIn), ball.RadiusIn, basis);
        }

        var whole = MassPropertiesOf.Compute(bodies[0], [], Fineness.Curves);
        return new DepthChart(
            points, basis, hole.DepthIn, legalDepthIn, ball.RadiusIn - whole.PrincipalRgIn.LowIn, ball.RadiusIn, bodies[0].Reason);
    }

    private static DepthChartPoint Point(Curve[] curves, DrilledHole hole, double ballRadiusIn, EstimateBasis basis)
    {
        var bore = Bore.Of(hole, ballRadiusIn);
        MassProperties[] at = [.. curves.Select(curve => curve.At(bore))];
        var hasFigures = basis != EstimateBasis.Illustration;
        return new DepthChartPoint(
            hole.DepthIn,
            Estimate.Over(at.Select(ball => ball.RemovedOz[0])),
            Estimate.Over(at.Select((ball, i) => ball.PrincipalRgIn.LowIn - curves[i].Start.PrincipalRgIn.LowIn)),
            Estimate.Over(at.Select((ball, i) => ball.PrincipalRgIn.HighIn - curves[i].Start.PrincipalRgIn.HighIn)),
            Estimate.Over(at.Select((ball, i) => ball.TotalDifferentialIn - curves[i].Start.TotalDifferentialIn)),
            hasFigures ? Estimate.Over(at.Select(ball => ball.PrincipalRgIn.LowIn)) : null,
            hasFigures ? Estimate.Over(at.Select(ball => ball.PrincipalRgIn.HighIn)) : null,
            hasFigures ? Estimate.Over(at.Select(ball => ball.TotalDifferentialIn)) : null);
    }

    /// <summary>One inside, after the other holes are removed.</summary>
    private sealed class Curve(Body body, Bore[] others)
    {
        public MassProperties Start { get; } = MassPropertiesOf.Compute(body, [], Fineness.Curves);

        public MassProperties At(Bore bore)
        {
            var sum = new MomentSum();
            Removal.Integrate(body.Steps, bore, others, Fineness.Curves, ref sum);
            return new MassProperties(
                [sum.MassOz], body.MassOz - sum.MassOz, body.First - sum.First, body.Second - sum.Second, body.Used, body.Reason);
        }
    }
}
