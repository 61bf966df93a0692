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
    /// <param name="effort">Counts the work and may stop it.</param>
    /// <exception cref="DescriptionException">A hole is not inside the ball, at its own depth or at 4 1/2 in.</exception>
    public static DepthChart Compute(
        BallDescription ball, IReadOnlyList<DrilledHole> holes, int index, double? legalDepthIn = null, Effort? effort = null)
    {
        ArgumentNullException.ThrowIfNull(holes);
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, holes.Count);
        MassPropertiesOf.ThrowUnlessDrillable(ball, holes);
        var hole = holes[index];
        MassPropertiesOf.ThrowUnlessDrillable(ball, [hole.WithDepth((PointCount - 1) * StepIn)]);

        var (insides, work) = (PlausibleInteriors.Of(ball), effort ?? new Effort());
        Bore[] others = [.. holes.Where((_, i) => i != index).Select(other => Bore.Of(other, ball.RadiusIn))];
        Moments[] before = [.. insides.Shapes.Select(shape => others.Index().Aggregate(default(Moments), (sum, other) =>
            sum + Removal.Of(shape, other.Item, Removal.Meeting(other.Item, others.Take(other.Index)), Accuracy.Curves, work)))];
        HoleInShape[] chosen = [.. insides.Shapes.Select(shape => new HoleInShape(shape, Accuracy.Curves, work))];
        var start = insides.Without(before);
        DepthChartPoint[] points = [.. Enumerable.Range(0, PointCount).Select(i => Point(hole.WithDepth(i * StepIn)))];
        var whole = insides.Without(new Moments[before.Length])[0];
        return new DepthChart(
            points, insides.Basis, hole.DepthIn, legalDepthIn, ball.RadiusIn - whole.PrincipalRgIn.LowIn, ball.RadiusIn,
            whole.InteriorReason);

        DepthChartPoint Point(DrilledHole deep)
        {
            var bore = Bore.Of(deep, ball.RadiusIn);
            var met = Removal.Meeting(bore, others);
            var at = insides.Without([.. chosen.Select((share, i) =>
                before[i] + share.Down(bore) - Removal.Shared(insides.Shapes[i], bore, met, Accuracy.Curves, work))]);
            var hasFigures = insides.Basis != EstimateBasis.Illustration;
            return new DepthChartPoint(
                deep.DepthIn,
                Estimate.Over(at.Select((each, i) => start[i].MassOz - each.MassOz)),
                Change(each => each.PrincipalRgIn.LowIn),
                Change(each => each.TotalDifferentialIn),
                hasFigures ? Estimate.Over(at.Select(each => each.PrincipalRgIn.LowIn)) : null,
                hasFigures ? Estimate.Over(at.Select(each => each.PrincipalRgIn.HighIn)) : null,
                hasFigures ? Estimate.Over(at.Select(each => each.TotalDifferentialIn)) : null);

            Estimate Change(Func<MassProperties, double> figure) =>
                Estimate.Over(at.Select((each, i) => figure(each) - figure(start[i])));
        }
    }
}
