using Inspect.Advice;
using Inspect.Ball;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Pictures;

namespace Inspect.Station.BeforeDrilling;

/// <summary>What a plan would do, as planned and with the opposite choice of thumb hole.</summary>
/// <param name="Planned">As planned.</param>
/// <param name="Other">Without its thumb hole, or with an ordinary one where it has none.</param>
/// <param name="Chart">The curves of the chosen hole; null when the plan has no hole.</param>
/// <param name="Charted">The digit of the chosen hole.</param>
/// <param name="Drawing">The ball from above.</param>
/// <param name="Basis">What RG and differential rest on.</param>
/// <param name="ShowsDifferential">Whether the differential may be shown.</param>
/// <param name="InsideReason">Why the inside is not that of the declared figures.</param>
public sealed record PlanOutcome(
    PlannedBall Planned, PlannedBall Other, DepthChart? Chart, Digit? Charted, BallDrawing Drawing, EstimateBasis Basis,
        bool ShowsDifferential, string? InsideReason)
{
    /// <summary>Whether a place or a lean is that of an ordinary grip, because nobody typed one.</summary>
    public required bool HasAssumed { get; init; }

    private const string OrdinaryThumbDiameter = "1 1/16 in";
    private const string OrdinaryThumbDepth = "2 1/2 in";

    /// <summary>Computes a plan without faults under an edition.</summary>
    public static PlanOutcome Of(PlanForm form, Edition edition)
    {
        ArgumentNullException.ThrowIfNull(form);
        var whole = BallDescription.Of(form.DiameterIn!.Value, form.GrossOz!.Value, new Interior.Uniform());
        var inside = DeclaredInside.Of(form.Sheet, whole);
        var planned =
            PlannedBall.Of(HasThumb(form.Sheet) ? "Thumb hole" : "No thumb hole", form.Sheet, form, whole, inside, edition);
        var other = HasThumb(form.Sheet)
            ? PlannedBall.Of("No thumb hole", WithoutThumb(form.Sheet), form, whole, inside, edition)
            : PlannedBall.Of("Ordinary thumb hole", WithThumb(form.Sheet), form, whole, inside, edition);
        var ball = MeasuredBall.Of(form.Sheet)!;
        var drawing = BallDrawing.Of(whole.RadiusIn, ball.Holes, BallDrawing.MarksOf(form.Sheet, whole.RadiusIn));
        var assumed = ball.Holes.Select(hole => form.IsLeanAssumed(form.Sheet.Holes![hole.Index].Digit!.Value)).ToList();
        var (chart, charted) = ChartOf(form, ball, inside, edition);
        return new PlanOutcome(
            planned, other, chart, charted,
            drawing with
            {
                Rows = [.. drawing.Rows.Zip(assumed, (row, isAssumed) => isAssumed ? row with { Lean = $"{row.Lean} (assumed)" } : row)],
            },
            inside.Ball.Interior is Interior.Calibrated ? EstimateBasis.DeclaredFigures
                : EstimateBasis.Illustration, !inside.LacksMark, chart?.InteriorReason)
        {
            HasAssumed = assumed.Contains(true) || ball.Holes.Any(hole => hole.IsPlaceAssumed),
        };
    }

    private static (DepthChart? Chart, Digit? Charted) ChartOf(PlanForm form, MeasuredBall ball, DeclaredInside inside, Edition edition)
    {
        if (ball.Holes.Count == 0)
        {
            return (null, null);
        }

        var index = Math.Max(0, ball.Holes.ToList().FindIndex(hole => form.Sheet.Holes![hole.Index].Digit == form.Chart));
        var limit = new EditionLimits(edition, form.Sheet).MostOf(RuleQuantity.HoleDepth, HoleKind.Grip);
        var chart = DepthChartOf.Compute(
            inside.Ball, inside.Seen(ball.Drilled), index, limit is null ? null : Seam.ToDouble(limit.Value / Units.MillimetresPerInch));
        return (chart, form.Sheet.Holes![ball.Holes[index].Index].Digit);
    }

    private static bool HasThumb(Sheet sheet) => sheet.Holes!.Any(hole => hole.Digit == Digit.Thumb);

    private static Sheet WithoutThumb(Sheet sheet) => sheet with
    {
        Holes = [.. sheet.Holes!.Where(hole => hole.Digit != Digit.Thumb)],
        Grip = sheet.Grip! with { Digits = [.. sheet.Grip.Digits!.Where(digit => digit != Digit.Thumb)] },
    };

    private static Sheet WithThumb(Sheet sheet)
    {
        var thumb = new Hole
        {
            Kind = HoleKind.Grip,
            Digit = Digit.Thumb,
            Diameter = ReadingParser.Parse(OrdinaryThumbDiameter, Quantity.Length).Reading,
            Depth = ReadingParser.Parse(OrdinaryThumbDepth, Quantity.Length).Reading,
            SecondaryHole = false,
        };
        return sheet with { Holes = [thumb, .. sheet.Holes!], Grip = sheet.Grip! with { Digits = [Digit.Thumb, .. sheet.Grip.Digits!] } };
    }
}
