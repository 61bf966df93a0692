namespace Inspect.Ball;

/// <summary>The ball at one depth of the chosen hole, its other holes as they are.</summary>
/// <param name="DepthIn">The depth, measured in the same way as the hole's own.</param>
/// <param name="RemovedOz">What the chosen hole removes.</param>
/// <param name="LowRgChangeIn">Change of the lowest RG against the ball without this hole.</param>
/// <param name="TotalDifferentialChangeIn">Change of the total differential against the ball without this hole.</param>
/// <param name="LowRgIn">The lowest RG; null without declared figures, because then only a change may be shown.</param>
/// <param name="HighRgIn">The highest RG; null without declared figures.</param>
/// <param name="TotalDifferentialIn">The total differential; null without declared figures.</param>
public sealed record DepthChartPoint(
    double DepthIn,
    Estimate RemovedOz,
    Estimate LowRgChangeIn,
    Estimate TotalDifferentialChangeIn,
    Estimate? LowRgIn,
    Estimate? HighRgIn,
    Estimate? TotalDifferentialIn);
