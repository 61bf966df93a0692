namespace Inspect.Ball;

/// <summary>A symmetric 3 by 3 tensor, such as a second moment or an inertia in oz·in².</summary>
public readonly record struct SymmetricTensor(double XX, double YY, double ZZ, double XY, double XZ, double YZ)
{
    public static readonly SymmetricTensor Zero;

    /// <summary>The sum of the diagonal. It does not change when the axes are turned.</summary>
    public double Trace => XX + YY + ZZ;

    public static SymmetricTensor Diagonal(double xx, double yy, double zz) => new(xx, yy, zz, 0, 0, 0);

    /// <summary>The product v vᵀ.</summary>
    public static SymmetricTensor Square(Vector v) => new(v.X * v.X, v.Y * v.Y, v.Z * v.Z, v.X * v.Y, v.X * v.Z, v.Y * v.Z);

    public static SymmetricTensor operator +(SymmetricTensor a, SymmetricTensor b) =>
        new(a.XX + b.XX, a.YY + b.YY, a.ZZ + b.ZZ, a.XY + b.XY, a.XZ + b.XZ, a.YZ + b.YZ);

    public static SymmetricTensor operator -(SymmetricTensor a, SymmetricTensor b) => a + (b * -1);

    public static SymmetricTensor operator *(SymmetricTensor a, double factor) =>
        new(a.XX * factor, a.YY * factor, a.ZZ * factor, a.XY * factor, a.XZ * factor, a.YZ * factor);

    /// <summary>The trace times the unit tensor, less this one. It turns a second moment into an inertia.</summary>
    public SymmetricTensor TraceLessSelf() => Diagonal(Trace, Trace, Trace) - this;

    /// <summary>The three principal values, smallest first.</summary>
    /// <remarks>By cyclic Jacobi rotations, which need no special case for equal values: a ball with one hole always has two.</remarks>
    public (double Low, double Middle, double High) Principal()
    {
        Span<double> a = [XX, XY, XZ, XY, YY, YZ, XZ, YZ, ZZ];
        for (var sweep = 0; sweep < 50; sweep++)
        {
            var off = (a[1] * a[1]) + (a[2] * a[2]) + (a[5] * a[5]);
            var on = (a[0] * a[0]) + (a[4] * a[4]) + (a[8] * a[8]);
            if (off <= 1e-34 * on || off == 0)
            {
                break;
            }

            Rotate(a, 0, 1);
            Rotate(a, 0, 2);
            Rotate(a, 1, 2);
        }

        Span<double> values = [a[0], a[4], a[8]];
        values.Sort();
        return (values[0], values[1], values[2]);
    }

    private static void Rotate(Span<double> a, int p, int q)
    {
        var apq = a[(p * 3) + q];
        if (apq == 0)
        {
            return;
        }

        var theta = (a[q * 4] - a[p * 4]) / (2 * apq);
        var t = double.IsInfinity(theta) ? 0 : (theta >= 0 ? 1 : -1) / (Math.Abs(theta) + Math.Sqrt((theta * theta) + 1));
        var c = 1 / Math.Sqrt((t * t) + 1);
        var s = t * c;
        for (var k = 0; k < 3; k++)
        {
            (a[(k * 3) + p], a[(k * 3) + q]) = Turned(a[(k * 3) + p], a[(k * 3) + q], c, s);
        }

        for (var k = 0; k < 3; k++)
        {
            (a[(p * 3) + k], a[(q * 3) + k]) = Turned(a[(p * 3) + k], a[(q * 3) + k], c, s);
        }

        a[(p * 3) + q] = 0;
        a[(q * 3) + p] = 0;
    }

    private static (double P, double Q) Turned(double p, double q, double c, double s) => ((c * p) - (s * q), (s * p) + (c * q));
}
