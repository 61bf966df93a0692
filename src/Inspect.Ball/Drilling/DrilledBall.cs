namespace Inspect.Ball;

/// <summary>A ball with its holes, over the insides that it may have. It can be asked many times what other holes change.</summary>
/// <remarks>What a hole removes from a shape by itself is computed once and kept as long as this object: the insides have most of their
/// shapes in common, and most holes stay as they are. What holes share that meet is computed for each question.</remarks>
public sealed class DrilledBall
{
    private readonly BallDescription _ball;
    private readonly ScaleConstant _scale;
    private readonly Effort _effort;
    private readonly PlausibleInteriors _insides;
    private readonly Dictionary<DrilledHole, Moments[]> _kept = [];
    private readonly MassProperties[] _now;

    /// <summary>Takes a ball as it is drilled now.</summary>
    /// <param name="ball">The ball before drilling.</param>
    /// <param name="holes">Its holes.</param>
    /// <param name="scale">The scale in whose ounces changes are given.</param>
    /// <param name="effort">Counts the work and may stop it.</param>
    /// <exception cref="DescriptionException">A hole is not inside the ball.</exception>
    public DrilledBall(BallDescription ball, IReadOnlyList<DrilledHole> holes, ScaleConstant scale, Effort? effort = null)
    {
        MassPropertiesOf.ThrowUnlessDrillable(ball, holes);
        (_ball, _scale, _effort, _insides) = (ball, scale, effort ?? new Effort(), PlausibleInteriors.Of(ball));
        _now = With(holes);
    }

    /// <summary>What changes when the ball has other holes.</summary>
    /// <exception cref="DescriptionException">A hole is not inside the ball.</exception>
    public DrillingEffect Changed(IReadOnlyList<DrilledHole> holes)
    {
        MassPropertiesOf.ThrowUnlessDrillable(_ball, holes);
        var then = With(holes);
        return new DrillingEffect(
            Change(each => each.MassOz),
            Change(each => StaticMoment.ToOunces(each.MomentOzIn.X, _scale)),
            Change(each => StaticMoment.ToOunces(each.MomentOzIn.Y, _scale)),
            Change(each => StaticMoment.ToOunces(each.MomentOzIn.Z, _scale)),
            Change(each => each.PrincipalRgIn.LowIn),
            Change(each => each.TotalDifferentialIn),
            HoleWall.Between(_ball, holes) is [var thinnest, ..] ? thinnest.WallIn : null,
            _insides.Basis);

        Estimate Change(Func<MassProperties, double> figure) => Estimate.Over(then.Select((each, i) => figure(each) - figure(_now[i])));
    }

    private MassProperties[] With(IReadOnlyList<DrilledHole> holes)
    {
        var bores = MassPropertiesOf.Bores(_ball, holes);
        var removed = new Moments[_insides.Shapes.Count];
        for (var i = 0; i < bores.Length; i++)
        {
            var (met, alone) = (Removal.Meeting(bores[i], bores.Take(i)), Alone(holes[i], bores[i]));
            for (var shape = 0; shape < removed.Length; shape++)
            {
                removed[shape] += alone[shape] - Removal.Shared(_insides.Shapes[shape], bores[i], met, Accuracy.Curves, _effort);
            }
        }

        return _insides.Without(removed);
    }

    private Moments[] Alone(DrilledHole hole, Bore bore)
    {
        if (!_kept.TryGetValue(hole, out var alone))
        {
            alone = [.. _insides.Shapes.Select(shape => Removal.Of(shape, bore, [], Accuracy.Curves, _effort))];
            _kept.Add(hole, alone);
        }

        return alone;
    }
}
