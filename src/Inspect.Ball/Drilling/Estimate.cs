namespace Inspect.Ball;

/// <summary>A predicted number as a range over the insides a ball may have, with the most likely one; never a measurement.</summary>
public readonly record struct Estimate(double Low, double Best, double High)
{
    /// <summary>Whether the range lies on one side of nothing, so that at least the sign may be told.</summary>
    public bool HasSign => Low > 0 || High < 0;

    /// <summary>The range of the values, the first being the best one.</summary>
    internal static Estimate Over(IEnumerable<double> bestFirst)
    {
        double[] values = [.. bestFirst];
        return new Estimate(values.Min(), values[0], values.Max());
    }
}
