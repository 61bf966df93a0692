namespace Inspect.Ball;

/// <summary>How deep or wide one hole would have to be for a wanted change in static ounces, in dense and in light material.</summary>
/// <param name="DenseIn">The size in dense material: make this cut first, then weigh again. Null when no size is enough.</param>
/// <param name="EvenIn">The size in material of the ball's mean density.</param>
/// <param name="LightIn">The size in light material.</param>
/// <param name="MostUsefulIn">The size beyond which the effect on the axis turns back, or the most allowed if that is less.</param>
/// <param name="MostChangeOz">The most that a cut to that size can change, in light, even and dense material; zero where it moves the
/// reading the other way.</param>
public sealed record FurtherCut(double? DenseIn, double? EvenIn, double? LightIn, double MostUsefulIn, Estimate MostChangeOz)
{
    /// <summary>Finds the depths for a change of the reading along an axis, for a bottom in a light inside, in material of the mean density
    /// and in a dense core. Depths are measured as the hole's own.</summary>
    /// <param name="ball">The ball before drilling; only its size and weight are used.</param>
    /// <param name="holes">All its holes. Material that another hole has removed does not count.</param>
    /// <param name="index">The hole to cut.</param>
    /// <param name="axis">The unit direction in which the reading is positive. For top weight it points from the ball's centre to the
    /// grip's centre.</param>
    /// <param name="changeOz">The wanted change of that reading, negative to make it less.</param>
    /// <param name="scale">The scale that will weigh it.</param>
    /// <param name="deepestIn">The greatest depth to consider.</param>
    /// <param name="effort">Counts the work and may stop it.</param>
    /// <exception cref="DescriptionException">A hole is not inside the ball, at its own depth or at the deepest.</exception>
    public static FurtherCut Deeper(
        BallDescription ball, IReadOnlyList<DrilledHole> holes, int index, Vector axis, double changeOz, ScaleConstant scale,
        double deepestIn = 4.5, Effort? effort = null)
    {
        var moment = new UnitMoment(ball, holes, index, axis, effort ?? new Effort());
        var hole = holes[index];
        var most = Math.Min(deepestIn, TurningDepth(hole, ball.RadiusIn, axis) ?? deepestIn);
        return moment.Reaching(
            StaticMoment.FromOunces(changeOz, scale), scale, hole.DepthIn, most, hole.WithDepth,
            [PlausibleInteriors.Light, ball.MeanDensity, PlausibleInteriors.DenseCore]);
    }

    /// <summary>Finds the diameters for a change of the reading along an axis, for a wall in cover material or in material of the mean
    /// density. Depth and pitch stay as they are.</summary>
    /// <exception cref="DescriptionException">A hole is not inside the ball, at its own width or at the widest.</exception>
    public static FurtherCut Wider(
        BallDescription ball, IReadOnlyList<DrilledHole> holes, int index, Vector axis, double changeOz, ScaleConstant scale,
        double widestIn = 25.0 / 16, Effort? effort = null)
    {
        var moment = new UnitMoment(ball, holes, index, axis, effort ?? new Effort());
        var (mean, cover) = (ball.MeanDensity, Density.FromGPerCm3(Interior.Calibrated.UsualCoverGPerCm3));
        return moment.Reaching(
            StaticMoment.FromOunces(changeOz, scale), scale, holes[index].DiameterIn, widestIn, holes[index].WithDiameter,
            cover.OzPerIn3 < mean.OzPerIn3 ? [cover, mean, mean] : [mean, mean, cover]);
    }

    /// <summary>The depth at which one more cut has no lever about the axis' plane and beyond which it works backwards; null when there
    /// is no such depth.</summary>
    private static double? TurningDepth(DrilledHole hole, double ballRadius, Vector axis)
    {
        var bore = Bore.Of(hole, ballRadius);
        var slope = bore.Axis.Dot(axis);
        var further = Math.Abs(slope) < 1e-9 ? 0 : (-bore.Foot.Dot(axis) / slope) - bore.MeanBottomHeight;
        return further > 0 ? hole.DepthIn + further : null;
    }

    /// <summary>The first moment along an axis of what one hole removes in addition to the others, at a density of 1 oz/in³.</summary>
    private sealed class UnitMoment
    {
        private readonly BallDescription _ball;
        private readonly Bore[] _others;
        private readonly Vector _axis;
        private readonly Effort _effort;
        private (double DiameterIn, HoleInShape Hole)? _kept;

        public UnitMoment(BallDescription ball, IReadOnlyList<DrilledHole> holes, int index, Vector axis, Effort effort)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(index);
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, holes.Count);
            MassPropertiesOf.ThrowUnlessDrillable(ball, holes);
            _others = [.. holes.Where((_, i) => i != index).Select(hole => Bore.Of(hole, ball.RadiusIn))];
            (_ball, _axis, _effort) = (ball, axis, effort);
        }

        public FurtherCut Reaching(
            double wanted, ScaleConstant scale, double present, double most, Func<double, DrilledHole> cut, Density[] lightFirst)
        {
            MassPropertiesOf.ThrowUnlessDrillable(_ball, [cut(Math.Max(most, present))]);
            var start = Of(cut(present));
            var gain = most > present ? start - Of(cut(most)) : 0;
            if (gain * wanted <= 0)
            {
                return new FurtherCut(null, null, null, present, default);
            }

            double?[] sizes = [.. lightFirst.Select(density => Size(wanted / density.OzPerIn3))];
            double[] changes = [.. lightFirst.Select(density => StaticMoment.ToOunces(density.OzPerIn3 * gain, scale))];
            return new FurtherCut(sizes[2], sizes[1], sizes[0], most, new Estimate(changes.Min(), changes[1], changes.Max()));

            double? Size(double volume) => Math.Abs(gain) < Math.Abs(volume)
                ? null
                : Roots.Between(size => start - Of(cut(size)) - volume, (present, -volume), (most, gain - volume), 1e-4);
        }

        private double Of(DrilledHole hole)
        {
            var (bore, shape) = (Bore.Of(hole, _ball.RadiusIn), Ellipsoid.Ball(_ball.RadiusIn));
            if (_kept?.DiameterIn != hole.DiameterIn)
            {
                _kept = (hole.DiameterIn, new HoleInShape(shape, Accuracy.Curves, _effort));
            }

            var shared = Removal.Shared(shape, bore, Removal.Meeting(bore, _others), Accuracy.Curves, _effort);
            return (_kept.Value.Hole.Down(bore) - shared).First.Dot(_axis);
        }
    }
}
