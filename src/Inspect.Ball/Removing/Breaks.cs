namespace Inspect.Ball;

/// <summary>The places along one chord at which the integrand is not smooth, in ascending order, with the chord's two ends.</summary>
internal ref struct Breaks
{
    private readonly Span<double> _places;
    private readonly double _least;
    private int _count;

    /// <param name="room">Memory for the places: two ends and every break.</param>
    /// <param name="half">Half the chord's length; its middle is 0.</param>
    public Breaks(Span<double> room, double half)
    {
        _places = room;
        _places[0] = -half;
        _places[1] = half;
        _count = 2;

        // A piece shorter than this adds less than the last digit promised.
        _least = 1e-9 * half;
    }

    /// <summary>The ends of the smooth pieces.</summary>
    public readonly ReadOnlySpan<double> Ends => _places[.._count];

    public readonly bool IsSmooth => _count == 2;

    public void AddRoots(double a, double halfB, double c)
    {
        if (Roots.Quadratic(a, halfB, c, out var first, out var second))
        {
            Add(first);
            Add(second);
        }
    }

    public void Add(double place)
    {
        if (!(place > _places[0] + _least && place < _places[_count - 1] - _least) || _count == _places.Length)
        {
            return;
        }

        var at = _count;
        while (_places[at - 1] > place)
        {
            _places[at] = _places[at - 1];
            at--;
        }

        _places[at] = place;
        _count++;
    }
}
