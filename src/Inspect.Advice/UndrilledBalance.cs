using Inspect.Ball;
using Inspect.Sheets;

namespace Inspect.Advice;

/// <summary>Checks whether the ball, calculated without its holes, is one that
/// could have been made. Swapped axes and wrong signs show here.</summary>
internal static class UndrilledBalance
{
    /// <summary>Undrilled balls are made with a top weight between these, in ounces of the scale; from memory, no source.</summary>
    private const double LeastOz = 1.45;
    private const double MostOz = 5.8;

    /// <summary>How much wider the range is when the scale was not calibrated: its ounces may be two fifths more.</summary>
    private const double UncalibratedLeast = 0.4;
    private const double UncalibratedMost = 1.3;

    /// <summary>What readings and gauges may shift the rebuilt balance across the direction of the mark, in ounces.</summary>
    private const double ReadingsOz = 0.35;

    /// <summary>How far the maker's mark may lie from the true centre of gravity, as a tangent: about 3/4 in on the surface.</summary>
    private const double MarkTangent = 0.17;

    /// <summary>Without a mark: a grip is drilled within about 3 in of the centre of gravity, as a tangent.</summary>
    private const double GripTangent = 0.8;

    /// <summary>The heaviest ball allowed is 16 lb; a quarter pound more is not a reading error.</summary>
    private const double HeaviestOz = 260;

    public static IEnumerable<Hint> Hints(Sheet sheet, MeasuredBall ball)
    {
        if (!ball.IsFullyMeasured || ball.Holes.Count == 0 || ball.Rebuilt() is not { } whole)
        {
            yield break;
        }

        if (whole.WeightOz.Low > HeaviestOz)
        {
            yield return new Hint(HintKind.Weight, "weights.gross", AdviceWords.UndrilledWeight(whole.WeightOz.Best));
        }

        if (ball.ReadingsOz is { } readings && Oddity(sheet, ball, whole) is var (kind, text))
        {
            var fit = Slips(readings).Where(slip => Oddity(sheet, ball, Read(slip.Readings)) is null)
                .Select(slip => slip.Words).FirstOrDefault();
            yield return new Hint(kind, "weights", fit is null ? text : $"{text} {AdviceWords.WouldFit(fit)}");
        }

        // The holes removed the same whatever was read.
        UndrilledBall Read(Vector other) =>
            whole with { MomentOzIn = whole.MomentOzIn + StaticMoment.FromOunces(other - ball.ReadingsOz!.Value, ball.Scale) };
    }

    private static (HintKind Kind, string Text)? Oddity(Sheet sheet, MeasuredBall ball, UndrilledBall whole)
    {
        var imbalance = StaticMoment.ToOunces(whole.MomentOzIn, ball.Scale);
        var (least, most) = ball.Scale.IsCalibrated ? (LeastOz, MostOz) : (LeastOz * UncalibratedLeast, MostOz * UncalibratedMost);
        if (imbalance.Length > most)
        {
            return (HintKind.UndrilledBalance, AdviceWords.TooMuchUndrilled(imbalance.Length));
        }

        var mark = GripFrame.PlacementOf(sheet.Ball?.GravityMark) is { } place ? GripFrame.DirectionOf(place, ball.RadiusIn)
            : (Vector?)null;
        var towards = mark ?? Vector.UnitZ;
        var along = imbalance.Dot(towards);
        var across = (imbalance - (along * towards)).Length;
        if (across > ReadingsOz + ((mark is null ? GripTangent : MarkTangent) * Math.Max(along, 0)))
        {
            return (HintKind.UndrilledDirection, mark is null ? AdviceWords.FarFromTheGrip
                : AdviceWords.FarFromTheMark(Degrees(along, across)));
        }

        return along < least ? (HintKind.UndrilledBalance, AdviceWords.TooLittleUndrilled(along)) : null;
    }

    private static double Degrees(double along, double across) => Math.Atan2(across, along) * 180 / Math.PI;

    /// <summary>The usual typing errors, each with what the readings would have been.</summary>
    private static IEnumerable<(string Words, Vector Readings)> Slips(Vector typed)
    {
        yield return (AdviceWords.Swapped(BalanceAxis.Top, BalanceAxis.Side), new Vector(typed.Z, typed.Y, typed.X));
        yield return (AdviceWords.Swapped(BalanceAxis.Top, BalanceAxis.Finger), new Vector(typed.X, typed.Z, typed.Y));
        yield return (AdviceWords.Swapped(BalanceAxis.Side, BalanceAxis.Finger), new Vector(typed.Y, typed.X, typed.Z));
        yield return (AdviceWords.OtherSign(BalanceAxis.Top), typed with { Z = -typed.Z });
        yield return (AdviceWords.OtherSign(BalanceAxis.Side), typed with { X = -typed.X });
        yield return (AdviceWords.OtherSign(BalanceAxis.Finger), typed with { Y = -typed.Y });
    }
}
