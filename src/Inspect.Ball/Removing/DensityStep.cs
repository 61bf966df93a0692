namespace Inspect.Ball;

/// <summary>One term of a ball's density: a shape inside which the density is higher by a fixed amount.</summary>
/// <remarks>A ball's density at a point is the sum over the steps that contain the point. A step may be negative.</remarks>
internal sealed record DensityStep(double OzPerIn3, Ellipsoid Shape)
{
    public double MassOz => OzPerIn3 * Shape.VolumeIn3;

    public static DensityStep Ball(double ozPerIn3, double radiusIn) => new(ozPerIn3, Ellipsoid.Ball(radiusIn));

    /// <summary>Mass and moments of the whole step.</summary>
    public Moments Whole()
    {
        var semi = Shape.SemiAxes;
        var own = SymmetricTensor.Diagonal(semi.X * semi.X, semi.Y * semi.Y, semi.Z * semi.Z) * 0.2;
        return new Moments(1, Shape.Centre, own + SymmetricTensor.Square(Shape.Centre)) * MassOz;
    }
}
