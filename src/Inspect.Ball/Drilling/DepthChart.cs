namespace Inspect.Ball;

/// <summary>Radius of gyration and differential of a ball against the depth of one of its
/// holes, as a band over plausible insides.</summary>
/// <param name="Points">One point every 1/16 in, from no hole to 4 1/2 in.</param>
/// <param name="Basis">What the bands are based on.</param>
/// <param name="PresentDepthIn">The depth of the chosen hole.</param>
/// <param name="LegalDepthIn">The greatest depth that the rules allow, when the caller gave one.</param>
/// <param name="TurningDepthIn">The ball's radius less its radius of gyration: about where the low RG turns.</param>
/// <param name="CentreDepthIn">The ball's radius. A deeper hole removes material from the other side.</param>
/// <param name="InteriorReason">Why the most likely inside is not the one described; null when it is.</param>
public sealed record DepthChart(
    IReadOnlyList<DepthChartPoint> Points,
    EstimateBasis Basis,
    double PresentDepthIn,
    double? LegalDepthIn,
    double TurningDepthIn,
    double CentreDepthIn,
    string? InteriorReason);
