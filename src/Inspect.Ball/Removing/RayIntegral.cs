namespace Inspect.Ball;

/// <summary>Adds up what a bore removes along one ray of its cross-section, line by line.</summary>
internal readonly ref struct RayIntegral(
    Bore bore, ReadOnlySpan<Bore> met, Vector ray, ReadOnlySpan<BodyOnRay> bodies, RayRule rule, double angleWeight)
{
    /// <summary>How often a piece of a ray may be halved where the bore runs into another. The kinks there have no short formula.</summary>
    private const int MostHalvings = 7;

    private readonly Bore _bore = bore;
    private readonly ReadOnlySpan<Bore> _met = met;
    private readonly Vector _ray = ray;
    private readonly ReadOnlySpan<BodyOnRay> _bodies = bodies;

    public void AddAll<TSum>(Breaks breaks, ref TSum sum)
        where TSum : struct, ILineSum
    {
        var ends = breaks.Ends;
        for (var piece = 0; piece + 1 < ends.Length; piece++)
        {
            if (_met.IsEmpty)
            {
                AddPiece(ends[piece], ends[piece + 1], breaks.IsSmooth, ref sum);
            }
            else
            {
                AddHalved(ends[piece], ends[piece + 1], MostHalvings, ref sum);
            }
        }
    }

    private void AddHalved<TSum>(double from, double to, int halvings, ref TSum sum)
        where TSum : struct, ILineSum
    {
        var middle = (from + to) / 2;
        var inOne = Mass(from, to);
        var inTwo = Mass(from, middle) + Mass(middle, to);
        if (halvings == 0 || Math.Abs(inOne - inTwo) <= 1e-6 * _bore.Radius * _bore.Radius)
        {
            AddPiece(from, middle, whole: false, ref sum);
            AddPiece(middle, to, whole: false, ref sum);
            return;
        }

        AddHalved(from, middle, halvings - 1, ref sum);
        AddHalved(middle, to, halvings - 1, ref sum);
    }

    private double Mass(double from, double to)
    {
        var sum = new LengthSum();
        AddPiece(from, to, whole: false, ref sum);
        return sum.Total / angleWeight;
    }

    private void AddPiece<TSum>(double from, double to, bool whole, ref TSum sum)
        where TSum : struct, ILineSum
    {
        Span<double> room = stackalloc double[2 * (_met.Length + 1)];
        foreach (var (place, weight) in whole ? rule.Whole : rule.Piece)
        {
            var r = from + (place * (to - from));
            var foot = _bore.Foot + (r * _ray);
            var open = new OpenPieces(room, _bore.BottomHeight(r));
            foreach (var other in _met)
            {
                if (BoreOnLine.Interval(other, foot, _bore.Axis, out var low, out var high))
                {
                    open.Remove(low, high);
                }
            }

            AddLine(open, foot, r, r * weight * (to - from) * angleWeight, ref sum);
        }
    }

    private void AddLine<TSum>(OpenPieces open, in Vector foot, double r, double weight, ref TSum sum)
        where TSum : struct, ILineSum
    {
        foreach (ref readonly var body in _bodies)
        {
            if (!body.Interval(r, out var low, out var high))
            {
                continue;
            }

            for (var piece = 0; piece < open.Count; piece++)
            {
                var from = Math.Max(low, open.Low(piece));
                var to = Math.Min(high, open.High(piece));
                if (from < to)
                {
                    sum.Add(weight * body.OzPerIn3, foot, _bore.Axis, from, to);
                }
            }
        }
    }

    private struct LengthSum : ILineSum
    {
        public double Total { get; private set; }

        public void Add(double weight, in Vector foot, in Vector axis, double low, double high) => Total += weight * (high - low);
    }
}
