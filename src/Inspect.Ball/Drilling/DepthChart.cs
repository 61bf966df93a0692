namespace Inspect.Ball;

/// <summary>Radius of gyration and differential of a ball against the depth of one of its holes, as a band over plausible
/// insides.</summary>
/// <param name="Points">One point each 1/16 in from no hole to 4 1/2 in.</param>
/// <param name="Basis">What the bands rest on.</param>
/// <param name="PresentDepthIn">The depth the chosen hole has.</param>
/// <param name="LegalDepthIn">The greatest depth the rules allow, where the caller named one.</param>
/// <param name="TurningDepthIn">The ball's radius less its radius of gyration: about where the low RG turns.</param>
/// <param name="CentreDepthIn">The ball's radius, beyond which a deeper hole takes from the other side.</param>
/// <param name="InteriorReason">Why the most likely inside is another than the one described; nothing when it is that one.</param>
public sealed record DepthChart(
    IReadOnlyList<DepthChartPoint> Points,
    EstimateBasis Basis,
    double PresentDepthIn,
    double? LegalDepthIn,
    double TurningDepthIn,
    double CentreDepthIn,
    string? InteriorReason);
