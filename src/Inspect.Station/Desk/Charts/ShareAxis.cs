namespace Inspect.Station.Desk.Charts;

/// <summary>An axis for shares: from 0 to the first round share that holds the largest of them.</summary>
/// <param name="End">Where it ends.</param>
/// <param name="Ticks">Its grid lines, both ends included.</param>
public sealed record ShareAxis(double End, IReadOnlyList<double> Ticks)
{
    private const int MostSteps = 5;
    private const double Close = 1e-9;

    private static readonly double[] Steps = [0.01, 0.02, 0.05, 0.1, 0.2];

    /// <param name="largest">From 0 to 1.</param>
    public static ShareAxis Of(double largest)
    {
        var step = Steps.First(one => largest <= (MostSteps * one) + Close);
        var count = Math.Max(1, (int)Math.Ceiling((largest / step) - Close));
        return new ShareAxis(step * count, [.. Enumerable.Range(0, count + 1).Select(i => step * i)]);
    }
}
