using Inspect.Ball;
using Inspect.Sheets;
using Inspect.Sheets.Described;
using Inspect.Sheets.Readings;

namespace Inspect.Advice;

/// <summary>Compares a ball with its earlier inspection: what two instruments can differ by, and what drilling since takes away.</summary>
internal static class SinceThen
{
    /// <summary>What two readings of the same thing may differ by: about four times the error of one; judgement, no source.</summary>
    private const double WeightOz = 1.0;
    private const double BalanceOz = 0.5;
    private const double WidthIn = 3.0 / 64;
    private const double DepthIn = 3.0 / 16;
    private const double PlaceIn = 1.0 / 4;

    /// <summary>How uncertain a predicted change is because the inside is not known.</summary>
    private const double OfTheChange = 0.1;

    public static IEnumerable<Hint> Hints(Sheet now, EarlierInspection earlier)
    {
        var then = earlier.Sheet;
        return earlier.WasRedrilled ? AfterDrilling(now, then) : Unchanged(now, then);
    }

    private static IEnumerable<Hint> Unchanged(Sheet now, Sheet then)
    {
        foreach (var (path, one, other, within) in Weighings(now, then).Where(each => Apart(each.Now, each.Then) > each.Within))
        {
            yield return new Hint(HintKind.DiffersFromBefore, path, AdviceWords.DiffersFromBefore(one!, other!));
        }

        foreach (var (index, hole) in (now.Holes ?? []).Index())
        {
            if (Same(hole, then) is not { } before)
            {
                continue;
            }

            foreach (var (member, one, other, within) in Gauged(hole, before).Where(each => Apart(each.Now, each.Then) > each.Within))
            {
                yield return new Hint(
                    HintKind.DiffersFromBefore, Plausibility.At(index, member),
                        AdviceWords.HoleDiffersFromBefore(Words.Subject(hole, index), one!, other!));
            }
        }
    }

    private static IEnumerable<Hint> AfterDrilling(Sheet now, Sheet then)
    {
        if (MeasuredBall.Of(now) is not { IsFullyMeasured: true, WeightOz: { } weightNow } ballNow
            || MeasuredBall.Of(then) is not { IsFullyMeasured: true, WeightOz: { } weightThen } ballThen)
        {
            yield break;
        }

        var whole = BallDescription.Of(ballThen.DiameterIn, ballThen.Rebuilt()!.WeightOz.Best, new Interior.Uniform());
        if (MassPropertiesOf.Check(whole, ballNow.Drilled).Count > 0)
        {
            yield break;
        }

        var effect = DrillingEffect.Of(whole, ballThen.Drilled, ballNow.Drilled, ballNow.Scale);
        if (Misses(weightNow - weightThen, effect.WeightOz, WeightOz))
        {
            yield return new Hint(
                HintKind.DrillingDoesNotFit, "weights.gross", AdviceWords.WeightDoesNotFit(weightNow - weightThen, effect.WeightOz));
        }

        if (ballNow.ReadingsOz is not { } readingsNow || ballThen.ReadingsOz is not { } readingsThen)
        {
            yield break;
        }

        var change = readingsNow - readingsThen;
        foreach (var axis in BalanceAxis.All)
        {
            var predicted = axis == BalanceAxis.Side ? effect.X : axis == BalanceAxis.Finger ? effect.Y : effect.Z;
            if (Misses(change.Dot(axis.Unit), predicted, BalanceOz))
            {
                yield return new Hint(
                    HintKind.DrillingDoesNotFit, axis.Path, AdviceWords.BalanceDoesNotFit(axis, change.Dot(axis.Unit), predicted));
            }
        }
    }

    private static bool Misses(double change, Estimate predicted, double within)
    {
        var slack = within + (OfTheChange * Math.Abs(predicted.Best));
        return change < predicted.Low - slack || change > predicted.High + slack;
    }

    private static IEnumerable<(string Path, Reading? Now, Reading? Then, double Within)> Weighings(Sheet now, Sheet then)
    {
        yield return ("weights.gross", now.Weights?.Gross, then.Weights?.Gross, WeightOz);
        foreach (var axis in BalanceAxis.All)
        {
            yield return (axis.Path, axis.On(now.Weights), axis.On(then.Weights), BalanceOz);
        }
    }

    private static IEnumerable<(string Member, Reading? Now, Reading? Then, double Within)> Gauged(Hole now, Hole then)
    {
        yield return ("diameter", now.Diameter, then.Diameter, WidthIn);
        if (now.DepthTo == then.DepthTo)
        {
            yield return ("depth", now.Depth, then.Depth, DepthIn);
        }

        yield return ("position.arc", now.Position?.Arc, then.Position?.Arc, PlaceIn);
    }

    private static double Apart(Reading? one, Reading? other) =>
        one is null || other is null ? 0 : Math.Abs(Physical.Value(one) - Physical.Value(other));

    /// <summary>The hole of the earlier sheet for the same digit, where it had one such hole only.</summary>
    private static Hole? Same(Hole hole, Sheet then)
    {
        Hole[] same = hole.Kind == HoleKind.Grip && hole.Digit is not null
            ? [.. (then.Holes ?? []).Where(other => other.Kind == hole.Kind && other.Digit == hole.Digit)]
            : [];
        return same.Length == 1 ? same[0] : null;
    }
}
