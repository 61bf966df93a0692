using Inspect.Ball;
using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Advice;

/// <summary>The two ways in which a hole is cut further: deeper or wider, each in the steps in which a stop or a bit is set.</summary>
internal sealed record Cut(
    RemedyKind Kind, RuleQuantity Quantity, double StepIn, Func<DrilledHole, double> Size, Func<DrilledHole, double, DrilledHole> Drilled,
    Func<Sheet, int, double, Sheet> Planned)
{
    public static readonly Cut Deeper = new(
        RemedyKind.Deepen, RuleQuantity.HoleDepth, 1.0 / 16, hole => hole.DepthIn, (hole, to) => hole.WithDepth(to),
        PlannedSheet.WithDepth);

    public static readonly Cut Wider = new(
        RemedyKind.Widen, RuleQuantity.HoleDiameter, 1.0 / 64, hole => hole.DiameterIn, (hole, to) => hole.WithDiameter(to),
        PlannedSheet.WithDiameter);

    /// <summary>The most that the rules allow, in inches; null where they set no limit.</summary>
    public double? MostIn(EditionLimits limits, HoleKind kind) =>
        limits.MostOf(Quantity, kind) is { } most ? Seam.ToDouble(most.Value / Units.MillimetresPerInch) : null;

    /// <summary>A size rounded down to a step.</summary>
    public double Down(double inches) => Math.Floor((inches + 1e-9) / StepIn) * StepIn;

    /// <summary>The first cut: what dense material needs, rounded down, but at least one real step more than there is now.</summary>
    public double First(double denseIn, double presentIn) =>
        Down(denseIn) is var down && down > presentIn + 1e-9 ? down : Math.Ceiling(denseIn / StepIn) * StepIn;
}
