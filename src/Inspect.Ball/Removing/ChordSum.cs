namespace Inspect.Ball;

/// <summary>Sums over the lines of one chord, in the chord's own plane: area, and moments along the chord (x) and the lines (z).</summary>
internal struct ChordSum
{
    private double _area;
    private double _x;
    private double _z;
    private double _xx;
    private double _xz;
    private double _zz;

    public readonly bool IsNothing => _area == 0;

    /// <summary>Adds the piece of the line at place x between two heights. It is exact along the line.</summary>
    public void Add(double weight, double x, double low, double high)
    {
        var area = weight * (high - low);
        var z = area * (high + low) / 2;
        _area += area;
        _x += area * x;
        _z += z;
        _xx += area * x * x;
        _xz += z * x;
        _zz += area * ((high * high) + (high * low) + (low * low)) / 3;
    }

    public void Add(in ChordSum other)
    {
        _area += other._area;
        _x += other._x;
        _z += other._z;
        _xx += other._xx;
        _xz += other._xz;
        _zz += other._zz;
    }

    /// <summary>Whether two sums of one chord differ by no more than an area, at the lever given.</summary>
    public readonly bool IsNear(in ChordSum other, double area, double lever) =>
        Math.Abs(_area - other._area) <= area && Math.Abs(_x - other._x) <= area * lever && Math.Abs(_z - other._z) <= area * lever;

    /// <summary>The moments of a chord of some width at a distance from the axis: x is that distance, y runs along the chord.</summary>
    public readonly Moments At(double aside, double width)
    {
        var area = width * _area;
        return new Moments(area, new Vector(aside * area, width * _x, width * _z), new SymmetricTensor(
            aside * aside * area, width * _xx, width * _zz, aside * width * _x, aside * width * _z, width * _xz));
    }
}
