namespace Inspect.Ball;

/// <summary>A place, direction or first moment in the ball's frame: origin at the ball's centre, +z through the pin.</summary>
public readonly record struct Vector(double X, double Y, double Z)
{
    public static readonly Vector Zero = new(0, 0, 0);
    public static readonly Vector UnitX = new(1, 0, 0);
    public static readonly Vector UnitY = new(0, 1, 0);
    public static readonly Vector UnitZ = new(0, 0, 1);

    public double Length => Math.Sqrt(Dot(this));

    public static Vector operator +(Vector a, Vector b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    public static Vector operator -(Vector a, Vector b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static Vector operator -(Vector a) => new(-a.X, -a.Y, -a.Z);

    public static Vector operator *(Vector a, double factor) => new(a.X * factor, a.Y * factor, a.Z * factor);

    public static Vector operator *(double factor, Vector a) => a * factor;

    public static Vector operator /(Vector a, double divisor) => new(a.X / divisor, a.Y / divisor, a.Z / divisor);

    public double Dot(Vector other) => (X * other.X) + (Y * other.Y) + (Z * other.Z);

    public Vector Cross(Vector other) =>
        new((Y * other.Z) - (Z * other.Y), (Z * other.X) - (X * other.Z), (X * other.Y) - (Y * other.X));

    /// <summary>Each coordinate divided by that of <paramref name="other"/>, which takes an ellipsoid to the unit sphere.</summary>
    internal Vector Over(Vector other) => new(X / other.X, Y / other.Y, Z / other.Z);
}
