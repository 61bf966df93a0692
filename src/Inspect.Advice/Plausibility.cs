using Inspect.Ball;
using Inspect.Sheets;
using Inspect.Sheets.Described;

namespace Inspect.Advice;

/// <summary>Looks for errors in what an inspector typed: hints for a second look, never a fail.</summary>
/// <remarks>
/// The thresholds are judgement, chosen so that good readings seldom give a hint: a test draws a thousand balls with the errors of ordinary
/// gauges and scales. A half inch of depth in a ball that nobody inspected before cannot be found: it moves less than those errors.
/// </remarks>
public static class Plausibility
{
    /// <summary>A wall thinner than this is a weak point; judgement, no source.</summary>
    public const double ThinWallIn = 0.125;

    /// <summary>Fingers and thumbs, their inserts and slugs included, have holes no wider than these; common practice, no source.</summary>
    private const double WidestFingerIn = 1.25;
    private const double WidestThumbIn = 1.5;

    /// <summary>Tenpin balls weigh between these, undrilled; 16 lb is the most allowed, with a quarter pound for errors.</summary>
    private const double LightestOz = 80;
    private const double HeaviestOz = 260;

    /// <summary>No reading of a drilled ball is farther from zero than this; common practice, no source.</summary>
    private const double LargestReadingOz = 6;

    /// <summary>Every hint on a sheet, and against the same ball's earlier inspection where there is one.</summary>
    public static IReadOnlyList<Hint> Hints(Sheet sheet, EarlierInspection? earlier = null)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var hints = new List<Hint>();
        CheckTotals(sheet.Weights, hints);
        var ball = MeasuredBall.Of(sheet);
        if (ball is not null)
        {
            CheckHoles(sheet, ball, hints);
            hints.AddRange(UndrilledBalance.Hints(sheet, ball));
        }

        if (earlier is not null)
        {
            hints.AddRange(SinceThen.Hints(sheet, earlier));
        }

        return hints;
    }

    private static void CheckTotals(Weights? weights, List<Hint> hints)
    {
        if (weights?.Gross is { } gross && Physical.Value(gross) is < LightestOz or > HeaviestOz)
        {
            hints.Add(new Hint(HintKind.Weight, "weights.gross", AdviceWords.OddWeight(gross)));
        }

        foreach (var axis in BalanceAxis.All)
        {
            if (axis.On(weights) is { } reading && Math.Abs(Physical.Value(reading)) > LargestReadingOz)
            {
                hints.Add(new Hint(HintKind.UndrilledBalance, axis.Path, AdviceWords.OddReading(reading)));
            }
        }
    }

    private static void CheckHoles(Sheet sheet, MeasuredBall ball, List<Hint> hints)
    {
        foreach (var (index, name, fault) in ball.Impossible)
        {
            var member = fault.Member[(fault.Member.LastIndexOf('.') + 1)..];
            hints.Add(new Hint(HintKind.OutsideTheBall, At(index, member == "pitch" ? "pitch" : member), AdviceWords.OutsideTheBall(name)));
        }

        foreach (var (index, hole) in (sheet.Holes ?? []).Index())
        {
            if (hole is { Kind: HoleKind.Grip, Digit: { } digit, Diameter: { } width }
                && Physical.Value(width) > (digit == Digit.Thumb ? WidestThumbIn : WidestFingerIn))
            {
                hints.Add(new Hint(HintKind.WideHole, At(index, "diameter"), AdviceWords.WideHole(digit, width)));
            }
        }

        CheckHand(sheet, ball, hints);
        MeasuredHole[] placed = [.. ball.Holes.Where(hole => !hole.IsPlaceAssumed)];
        foreach (var wall in HoleWall.Between(Size(ball), [.. placed.Select(hole => hole.Drilled)]).Where(wall => wall.WallIn < ThinWallIn))
        {
            var (one, other) = (placed[wall.First], placed[wall.Second]);
            hints.Add(wall.WallIn < 0
                ? new Hint(HintKind.HolesMeet, At(other.Index, "depth"), AdviceWords.HolesMeet(one.Name, other.Name))
                : new Hint(HintKind.ThinWall, At(other.Index, "depth"), AdviceWords.ThinWall(one.Name, other.Name, wall.WallIn)));
        }
    }

    /// <summary>On a right hand the middle finger lies left of the ring finger, on a left hand right of it.</summary>
    private static void CheckHand(Sheet sheet, MeasuredBall ball, List<Hint> hints)
    {
        if (sheet.Grip?.Hand is { } hand && Across(Digit.Middle) is var (middle, index) && Across(Digit.Ring) is var (ring, _)
            && (hand == Hand.Right ? middle > ring : middle < ring))
        {
            hints.Add(new Hint(HintKind.OtherHand, At(index, "position"), AdviceWords.OtherHand(hand)));
        }

        (double X, int Index)? Across(Digit digit) =>
            ball.Holes.FirstOrDefault(hole => !hole.IsPlaceAssumed && sheet.Holes![hole.Index].Digit == digit) is { } hole
                ? (GripFrame.DirectionOf(hole.Drilled.Placement, ball.RadiusIn).X, hole.Index)
                : null;
    }

    internal static BallDescription Size(MeasuredBall ball) =>
        BallDescription.Of(ball.DiameterIn, ball.WeightOz ?? 1, new Interior.Uniform());

    internal static string At(int index, string member) => FormattableString.Invariant($"holes[{index}].{member}");
}
