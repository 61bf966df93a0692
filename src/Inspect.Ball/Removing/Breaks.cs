namespace Inspect.Ball;

/// <summary>The distances along one ray at which the integrand is not smooth, in ascending order between the axis and the wall.</summary>
internal ref struct Breaks
{
    private readonly Span<double> _places;
    private readonly double _wall;
    private int _count;

    /// <param name="room">Memory for the distances: two ends and every break.</param>
    /// <param name="wall">The hole's radius.</param>
    public Breaks(Span<double> room, double wall)
    {
        _places = room;
        _wall = wall;
        _places[0] = 0;
        _places[1] = wall;
        _count = 2;
    }

    /// <summary>The ends of the smooth pieces, from 0 to the wall.</summary>
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
        // A piece thinner than this adds less than the last digit promised.
        var least = 1e-9 * _wall;
        if (!(place > least && place < _wall - least) || _count == _places.Length)
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
