namespace Inspect.Ball;

/// <summary>The first moment along an axis of what one hole removes in addition to the others, at a density of 1 oz/in³.</summary>
internal sealed class UnitMoment
{
    private readonly DensityStep[] _steps;
    private readonly Bore[] _others;
    private readonly double _radius;
    private readonly Vector _axis;

    /// <exception cref="DescriptionException">A hole is not inside the ball.</exception>
    public UnitMoment(BallDescription ball, IReadOnlyList<DrilledHole> holes, int index, Vector axis)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, holes.Count);
        MassPropertiesOf.ThrowUnlessDrillable(ball, holes);
        _steps = [DensityStep.Ball(1, ball.RadiusIn)];
        _others = [.. holes.Where((_, i) => i != index).Select(hole => Bore.Of(hole, ball.RadiusIn))];
        _radius = ball.RadiusIn;
        _axis = axis;
    }

    public double Of(DrilledHole hole)
    {
        var sum = new MomentSum();
        Removal.Integrate(_steps, Bore.Of(hole, _radius), _others, Fineness.Curves, ref sum);
        return sum.First.Dot(_axis);
    }
}
