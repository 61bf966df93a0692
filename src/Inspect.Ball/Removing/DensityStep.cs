namespace Inspect.Ball;

/// <summary>One term of a ball's density: an ellipsoid along the frame's axes, inside which the
/// density is higher by a fixed amount.</summary>
/// <remarks>A ball's density at a point is the sum over the steps that contain the point. A step may be negative.</remarks>
internal sealed record DensityStep(double OzPerIn3, Vector Centre, Vector SemiAxes)
{
    public double MassOz => OzPerIn3 * 4 * Math.PI / 3 * SemiAxes.X * SemiAxes.Y * SemiAxes.Z;

    public static DensityStep Ball(double ozPerIn3, double radiusIn) =>
        new(ozPerIn3, Vector.Zero, new Vector(radiusIn, radiusIn, radiusIn));

    public Vector FirstMoment() => MassOz * Centre;

    public SymmetricTensor SecondMoment()
    {
        var own = SymmetricTensor.Diagonal(SemiAxes.X * SemiAxes.X, SemiAxes.Y * SemiAxes.Y, SemiAxes.Z * SemiAxes.Z) * 0.2;
        return (own + SymmetricTensor.Square(Centre)) * MassOz;
    }
}
