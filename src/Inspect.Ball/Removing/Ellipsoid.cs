namespace Inspect.Ball;

/// <summary>An ellipsoid along the axes of the ball's frame; a sphere where the three are equal.</summary>
internal readonly record struct Ellipsoid(Vector Centre, Vector SemiAxes)
{
    public double VolumeIn3 => 4 * Math.PI / 3 * SemiAxes.X * SemiAxes.Y * SemiAxes.Z;

    public static Ellipsoid Ball(double radiusIn) => new(Vector.Zero, new Vector(radiusIn, radiusIn, radiusIn));
}
