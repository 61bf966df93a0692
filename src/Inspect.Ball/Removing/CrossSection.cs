namespace Inspect.Ball;

/// <summary>Sums over a bore's cross-section what it and a shape have in common, or the part of that which another bore shares.</summary>
/// <remarks>
/// Lines run along the bore; a chord is the row of lines at one distance from its axis. Along a line the sum is exact. A chord is cut where
/// a formula tells that the sum has a kink, and its pieces have Gauss-Legendre nodes. Where there may be kinks without a formula, pieces
/// are halved until two sums agree. The chords are at −a·cos πs: first evenly in s, which suits a smooth sum best, and where that does not
/// agree with twice as many, by Gauss-Legendre on pieces of s that are halved until two sums agree.
/// </remarks>
internal sealed class CrossSection
{
    private const int MostBreaks = 64;
    private const int MostHalvings = 9;
    private const int FewChords = 6;

    private static readonly GaussLegendre ChordNodes = new(5);

    /// <summary>Nodes for a chord without a break, and for a piece, where they crowd at both ends.</summary>
    private static readonly (double Place, double Weight)[] Even = Nodes(8, crowd: false);
    private static readonly (double Place, double Weight)[] Few = Nodes(5, crowd: true);
    private static readonly (double Place, double Weight)[] Crowded = Nodes(8, crowd: true);

    private readonly Bore _bore;
    private readonly Ellipsoid _shape;
    private readonly double _tolerance;
    private readonly Effort _effort;
    private readonly Bore? _other;
    private readonly Bore[] _before;
    private readonly bool _isCurved;
    private readonly bool _isRough;
    private readonly double _nearest;
    private readonly Vector _across;
    private readonly Vector _along;

    /// <param name="bore">The bore along which the lines run.</param>
    /// <param name="shape">The shape, of 1 oz/in³.</param>
    /// <param name="accuracy">How near two successive sums must come. For curves, a piece none of whose few lines meets another hole with a
    /// flat bottom counts as empty.</param>
    /// <param name="effort">Counts the lines.</param>
    /// <param name="other">Where given, only what this bore shares counts.</param>
    /// <param name="before">Bores in which nothing counts.</param>
    public CrossSection(Bore bore, Ellipsoid shape, Accuracy accuracy, Effort effort, Bore? other = null, Bore[]? before = null)
    {
        effort.ThrowIfStopped();
        (_bore, _shape, _effort, _other, _before) = (bore, shape, effort, other, before ?? []);
        _tolerance = (other is null ? accuracy.Apart : accuracy.Meeting) * bore.VolumeIn3;
        _isCurved = bore.Bottom != HoleBottom.Flat || other is { Bottom: not HoleBottom.Flat };
        _isRough = accuracy == Accuracy.Curves && !_isCurved && _before.Length == 0;
        (_across, _nearest) = other is null ? (bore.Across, -bore.Radius) : Towards(bore, other);
        _along = bore.Axis.Cross(_across);
    }

    /// <summary>The common part, about the ball's centre.</summary>
    public Moments Sum() => InFrame().FromFrame(_bore.Foot, _across, _along, _bore.Axis);

    private Moments InFrame()
    {
        if (_other is null)
        {
            var few = Evenly(0);
            var many = (few + Evenly(0.5)) * 0.5;
            if (many.IsNear(few, _tolerance, _bore.BallRadius))
            {
                return many;
            }
        }

        var first = Math.Acos(Math.Clamp(-_nearest / _bore.Radius, -1, 1)) / Math.PI;
        return Halved(first, 1, Chords(first, 1), MostHalvings);
    }

    private Moments Evenly(double start)
    {
        var sum = default(Moments);
        for (var i = 0; i < FewChords; i++)
        {
            sum += Chord((i + start) / FewChords, 1.0 / FewChords);
        }

        return sum;
    }

    /// <summary>A piece of the cross-section, halved until the halves together are what the whole was.</summary>
    private Moments Halved(double from, double to, in Moments whole, int halvings)
    {
        var middle = (from + to) / 2;
        var (one, two) = (Chords(from, middle), Chords(middle, to));
        return halvings == 0 || (one + two).IsNear(whole, _tolerance, _bore.BallRadius)
            ? one + two
            : Halved(from, middle, one, halvings - 1) + Halved(middle, to, two, halvings - 1);
    }

    private Moments Chords(double from, double to)
    {
        var sum = default(Moments);
        for (var i = 0; i < ChordNodes.Nodes.Length; i++)
        {
            sum += Chord(from + (ChordNodes.Nodes[i] * (to - from)), ChordNodes.Weights[i] * (to - from));
        }

        return sum;
    }

    private Moments Chord(double place, double weight)
    {
        var (sin, cos) = Math.SinCos(Math.PI * place);
        var (aside, half) = (-_bore.Radius * cos, _bore.Radius * sin);
        if (half <= 1e-12)
        {
            return default;
        }

        var middle = _bore.Foot + (aside * _across);
        var shape = new ShapeOnChord(_shape, _bore, middle, _along);
        Span<double> room = stackalloc double[MostBreaks];
        var breaks = new Breaks(room, half);
        shape.AddBreaks(_bore.TipHeight, ref breaks);
        if (_other is not null)
        {
            MeetingBreaks.Add(_bore, _other, middle, _along, ref breaks);
            foreach (var earlier in _before)
            {
                MeetingBreaks.Add(_bore, earlier, middle, _along, ref breaks);
            }
        }

        var sum = default(ChordSum);
        for (var piece = 0; piece + 1 < breaks.Ends.Length; piece++)
        {
            var (from, to) = (breaks.Ends[piece], breaks.Ends[piece + 1]);
            if (_isCurved || _other is not null)
            {
                var whole = Piece(shape, middle, aside, from, to, _isRough ? Few : Crowded);
                AddHalved(shape, middle, aside, from, to, whole, MostHalvings, ref sum);
            }
            else
            {
                sum.Add(Piece(shape, middle, aside, from, to, breaks.IsSmooth ? Even : Crowded));
            }
        }

        return sum.At(aside, weight * Math.PI * half);
    }

    /// <summary>Adds a piece that may have kinks without a formula: halved until the halves together are what it was.</summary>
    private void AddHalved(
        in ShapeOnChord shape, Vector middle, double aside, double from, double to, in ChordSum whole, int halvings, ref ChordSum sum)
    {
        if (whole.IsNothing && _isRough)
        {
            return;
        }

        var centre = (from + to) / 2;
        var (one, two) = (Piece(shape, middle, aside, from, centre, Crowded), Piece(shape, middle, aside, centre, to, Crowded));
        var both = one;
        both.Add(two);
        if (halvings == 0 || both.IsNear(whole, _tolerance / _bore.Radius, _bore.BallRadius))
        {
            sum.Add(both);
            return;
        }

        AddHalved(shape, middle, aside, from, centre, one, halvings - 1, ref sum);
        AddHalved(shape, middle, aside, centre, to, two, halvings - 1, ref sum);
    }

    private ChordSum Piece(
        in ShapeOnChord shape, Vector middle, double aside, double from, double to, (double Place, double Weight)[] nodes)
    {
        _effort.Count(nodes.Length);
        var sum = default(ChordSum);
        foreach (var (place, weight) in nodes)
        {
            var t = from + (place * (to - from));
            if (!shape.Interval(t, out var low, out var high))
            {
                continue;
            }

            high = Math.Min(high, _bore.Bottom == HoleBottom.Flat ? _bore.TipHeight
                : _bore.BottomHeight(Math.Sqrt((aside * aside) + (t * t))));
            if (low < high && _other is null)
            {
                sum.Add(weight * (to - from), t, low, high);
            }
            else if (low < high)
            {
                AddShared(middle + (t * _along), weight * (to - from), t, low, high, ref sum);
            }
        }

        return sum;
    }

    /// <summary>Adds what the other bore shares of a line and no bore before it has.</summary>
    private void AddShared(Vector point, double weight, double t, double low, double high, ref ChordSum sum)
    {
        if (!BoreOnLine.Interval(_other!, point, _bore.Axis, out var from, out var to))
        {
            return;
        }

        (low, high) = (Math.Max(low, from), Math.Min(high, to));
        while (low < high)
        {
            // Up to the next bore before, then past it.
            var (next, past) = (high, high);
            foreach (var earlier in _before)
            {
                if (BoreOnLine.Interval(earlier, point, _bore.Axis, out from, out to) && to > low && from < next)
                {
                    (next, past) = (Math.Max(from, low), to);
                }
            }

            sum.Add(weight, t, low, next);
            low = past;
        }
    }

    /// <summary>The direction across a bore to another's axis at the height of the bore's bottom, and a distance in that direction short of
    /// which no line meets the other.</summary>
    private static (Vector Across, double Nearest) Towards(Bore bore, Bore other)
    {
        var (along, start) = (other.Axis.Dot(bore.Axis), other.Foot - bore.Foot);
        var isAlong = along >= 0.3;
        var at = isAlong ? start + (((bore.TipHeight - start.Dot(bore.Axis)) / along) * other.Axis) : start;
        var flat = at - (at.Dot(bore.Axis) * bore.Axis);
        var across = flat.Length < 1e-6 ? bore.Across : flat / flat.Length;

        // The other's axis moves aside by k for each inch down, from the ball's surface to the bottom.
        var k = other.Axis.Dot(across) / along;
        var least = at.Dot(across) - Math.Max(0, k * (bore.TipHeight + bore.BallRadius));
        return (across, isAlong ? least - (other.Radius * Math.Sqrt(1 + (k * k))) : -bore.Radius);
    }

    private static (double Place, double Weight)[] Nodes(int count, bool crowd)
    {
        var rule = new GaussLegendre(count);
        return
        [
            .. rule.Nodes.Select((node, i) => crowd
                ? ((1 - Math.Cos(node * Math.PI)) / 2, rule.Weights[i] * Math.Sin(node * Math.PI) * Math.PI / 2)
                : (node, rule.Weights[i])),
        ];
    }
}
