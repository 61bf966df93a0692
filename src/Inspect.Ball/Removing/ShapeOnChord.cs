namespace Inspect.Ball;

/// <summary>A shape along one chord of a bore's cross-section, in coordinates in which the shape is a unit sphere.</summary>
/// <remarks>A place is t along the chord and s along the bore's axis. Kept are the products from which its distance is computed.</remarks>
internal readonly struct ShapeOnChord
{
    private readonly double _startStart;
    private readonly double _startChord;
    private readonly double _chordChord;
    private readonly double _startAxis;
    private readonly double _chordAxis;
    private readonly double _axisAxis;

    /// <param name="shape">The shape.</param>
    /// <param name="bore">The bore.</param>
    /// <param name="middle">The chord's middle, at the height of the bore's foot.</param>
    /// <param name="direction">The chord's unit direction.</param>
    public ShapeOnChord(in Ellipsoid shape, Bore bore, Vector middle, Vector direction)
    {
        var start = (middle - shape.Centre).Over(shape.SemiAxes);
        var (axis, along) = (bore.Axis.Over(shape.SemiAxes), direction.Over(shape.SemiAxes));
        (_startStart, _startChord, _startAxis) = (start.Dot(start) - 1, start.Dot(along), start.Dot(axis));
        (_chordChord, _chordAxis, _axisAxis) = (along.Dot(along), along.Dot(axis), axis.Dot(axis));
    }

    /// <summary>The heights between which the line at this place of the chord is inside the shape.</summary>
    public bool Interval(double t, out double low, out double high)
    {
        var b = _startAxis + (t * _chordAxis);
        var c = _startStart + (2 * t * _startChord) + (t * t * _chordChord);
        var discriminant = (b * b) - (_axisAxis * c);
        if (discriminant <= 0)
        {
            low = high = 0;
            return false;
        }

        var root = Math.Sqrt(discriminant);
        low = (-b - root) / _axisAxis;
        high = (-b + root) / _axisAxis;
        return true;
    }

    /// <summary>Adds the places at which the integrand has a kink: where the line begins to miss the shape, and where a flat bottom at
    /// this height meets its surface.</summary>
    public void AddBreaks(double bottom, ref Breaks breaks)
    {
        breaks.AddRoots(
            (_chordAxis * _chordAxis) - (_axisAxis * _chordChord),
            (_startAxis * _chordAxis) - (_axisAxis * _startChord),
            (_startAxis * _startAxis) - (_axisAxis * _startStart));
        breaks.AddRoots(
            _chordChord, _startChord + (bottom * _chordAxis), _startStart + (2 * bottom * _startAxis) + (bottom * bottom * _axisAxis));
    }
}
