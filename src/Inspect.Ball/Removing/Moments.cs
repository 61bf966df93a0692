namespace Inspect.Ball;

/// <summary>Mass, first and second moment of a piece of material, in oz, oz·in and oz·in²; at 1 oz/in³ those of its volume.</summary>
internal readonly record struct Moments(double Mass, Vector First, SymmetricTensor Second)
{
    public static Moments operator +(in Moments a, in Moments b) => new(a.Mass + b.Mass, a.First + b.First, a.Second + b.Second);

    public static Moments operator -(in Moments a, in Moments b) => a + (b * -1);

    public static Moments operator *(in Moments a, double factor) => new(a.Mass * factor, a.First * factor, a.Second * factor);

    /// <summary>Whether two sums of one integral differ by no more than a mass, at the lever given.</summary>
    public bool IsNear(in Moments other, double mass, double lever) =>
        Math.Abs(Mass - other.Mass) <= mass
        && Math.Abs(First.X - other.First.X) <= mass * lever
        && Math.Abs(First.Y - other.First.Y) <= mass * lever
        && Math.Abs(First.Z - other.First.Z) <= mass * lever;

    /// <summary>The same about the ball's centre, where these are about a point in a frame of three unit vectors.</summary>
    public Moments FromFrame(Vector origin, Vector a, Vector b, Vector c)
    {
        var shift = (First.X * a) + (First.Y * b) + (First.Z * c);
        var (u, v, w) = (Row(Second.XX, Second.XY, Second.XZ), Row(Second.XY, Second.YY, Second.YZ), Row(Second.XZ, Second.YZ, Second.ZZ));
        var lean = shift + ((Mass / 2) * origin);
        return new Moments(Mass, (Mass * origin) + shift, new SymmetricTensor(
            (u.X * a.X) + (v.X * b.X) + (w.X * c.X) + (2 * origin.X * lean.X),
            (u.Y * a.Y) + (v.Y * b.Y) + (w.Y * c.Y) + (2 * origin.Y * lean.Y),
            (u.Z * a.Z) + (v.Z * b.Z) + (w.Z * c.Z) + (2 * origin.Z * lean.Z),
            (u.X * a.Y) + (v.X * b.Y) + (w.X * c.Y) + (origin.X * lean.Y) + (lean.X * origin.Y),
            (u.X * a.Z) + (v.X * b.Z) + (w.X * c.Z) + (origin.X * lean.Z) + (lean.X * origin.Z),
            (u.Y * a.Z) + (v.Y * b.Z) + (w.Y * c.Z) + (origin.Y * lean.Z) + (lean.Y * origin.Z)));

        Vector Row(double x, double y, double z) => (x * a) + (y * b) + (z * c);
    }
}
