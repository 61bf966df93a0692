namespace Inspect.Ball;

/// <summary>Adds up mass, first and second moment about the ball's centre. It is exact along each line.</summary>
internal struct MomentSum : ILineSum
{
    public double MassOz { get; private set; }

    public Vector First { get; private set; }

    public SymmetricTensor Second { get; private set; }

    public void Add(double weight, in Vector foot, in Vector axis, double low, double high)
    {
        var length = weight * (high - low);
        var linear = weight * ((high * high) - (low * low)) / 2;
        var square = weight * ((high * high * high) - (low * low * low)) / 3;
        MassOz += length;
        First = new Vector(
            First.X + (foot.X * length) + (axis.X * linear),
            First.Y + (foot.Y * length) + (axis.Y * linear),
            First.Z + (foot.Z * length) + (axis.Z * linear));
        Second = new SymmetricTensor(
            Second.XX + (foot.X * foot.X * length) + (2 * foot.X * axis.X * linear) + (axis.X * axis.X * square),
            Second.YY + (foot.Y * foot.Y * length) + (2 * foot.Y * axis.Y * linear) + (axis.Y * axis.Y * square),
            Second.ZZ + (foot.Z * foot.Z * length) + (2 * foot.Z * axis.Z * linear) + (axis.Z * axis.Z * square),
            Second.XY + (foot.X * foot.Y * length) + (((foot.X * axis.Y) + (axis.X * foot.Y)) * linear) + (axis.X * axis.Y * square),
            Second.XZ + (foot.X * foot.Z * length) + (((foot.X * axis.Z) + (axis.X * foot.Z)) * linear) + (axis.X * axis.Z * square),
            Second.YZ + (foot.Y * foot.Z * length) + (((foot.Y * axis.Z) + (axis.Y * foot.Z)) * linear) + (axis.Y * axis.Z * square));
    }
}
