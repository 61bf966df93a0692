namespace Inspect.Ball;

/// <summary>Adds up, for each axis, the mass on its positive side less that on its negative side.</summary>
internal struct HalvesSum : ILineSum
{
    public Vector Difference { get; private set; }

    public void Add(double weight, in Vector foot, in Vector axis, double low, double high) =>
        Difference += weight * new Vector(
            Signed(foot.X, axis.X, low, high), Signed(foot.Y, axis.Y, low, high), Signed(foot.Z, axis.Z, low, high));

    /// <summary>The length over which foot + s·axis is positive less that over which it is negative.</summary>
    private static double Signed(double foot, double axis, double low, double high)
    {
        if (Math.Abs(axis) < 1e-14)
        {
            return Math.Abs(foot) < 1e-14 ? 0 : Math.Sign(foot) * (high - low);
        }

        var crossing = Math.Clamp(-foot / axis, low, high);
        return Math.Sign(axis) * (high - crossing - (crossing - low));
    }
}
