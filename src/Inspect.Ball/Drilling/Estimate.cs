namespace Inspect.Ball;

/// <summary>A predicted number, never a measurement: a range over the insides that a ball may have, with the most likely one.</summary>
public readonly record struct Estimate(double Low, double Best, double High)
{
    /// <summary>Whether the whole range is above or below zero, so that at least the sign is known.</summary>
    public bool HasSign => Low > 0 || High < 0;

    /// <summary>The range of the values; the first is the best one.</summary>
    internal static Estimate Over(IEnumerable<double> bestFirst)
    {
        double[] values = [.. bestFirst];
        return new Estimate(values.Min(), values[0], values.Max());
    }
}
