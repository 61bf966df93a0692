namespace Inspect.Ball;

/// <summary>How near two successive sums must come before the finer one is used, as a share of the hole's volume.</summary>
/// <param name="Apart">For what a hole removes by itself.</param>
/// <param name="Meeting">For what it shares with an earlier hole.</param>
internal readonly record struct Accuracy(double Apart, double Meeting)
{
    /// <summary>For figures.</summary>
    public static readonly Accuracy Figures = new(2e-7, 1e-6);

    /// <summary>For curves, searches and what a change of holes does.</summary>
    public static readonly Accuracy Curves = new(2e-5, 5e-5);
}
