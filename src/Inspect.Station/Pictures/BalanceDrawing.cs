using Inspect.Advice;
using Inspect.Ball;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Described;
using Inspect.Sheets.Readings;

namespace Inspect.Station.Pictures;

/// <summary>One axis of the balance: a reading or an estimate, and what is allowed.</summary>
/// <param name="Axis">Which axis.</param>
/// <param name="Oz">Low, best and high, all three the same for a reading; null when not known.</param>
/// <param name="LimitOz">The most allowed either way, in ounces; null when the edition sets no limit.</param>
/// <param name="Text">As typed, or the range.</param>
/// <param name="Limit">The limit in words.</param>
public sealed record BalanceValue(BalanceAxis Axis, Estimate? Oz, double? LimitOz, string Text, string Limit)
{
    public bool IsOutside => Oz is { } oz && LimitOz is { } limit && Math.Abs(oz.Best) > limit + 1e-9;
}

/// <summary>Side and finger weight as a dot in the square that the rules allow, and top weight on a bar next to it.</summary>
public sealed record BalanceDrawing(BalanceValue Side, BalanceValue Finger, BalanceValue Top, bool IsEstimate)
{
    /// <summary>How many ounces half the picture spans, so that the limits and every value fit.</summary>
    public double SpanOz => 1.12 * new[] { Side, Finger, Top }
        .SelectMany(value => new[] { value.LimitOz ?? 0, Math.Abs(value.Oz?.Low ?? 0), Math.Abs(value.Oz?.High ?? 0), 0.5 }).Max();

    public IReadOnlyList<BalanceValue> All => [Top, Side, Finger];

    /// <summary>Whether there is anything to draw.</summary>
    public bool IsKnown => All.Any(value => value.Oz is not null);

    /// <summary>Converts ounces to the picture's units; half the square has 100.</summary>
    public double At(double ounces) => 100 * ounces / SpanOz;

    /// <summary>The readings of a sheet against the limits of the edition it is judged under.</summary>
    public static BalanceDrawing Of(Sheet sheet, Edition edition, JudgingTerms? terms = null)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var limits = new EditionLimits(edition, sheet, terms);
        return new BalanceDrawing(Value(BalanceAxis.Side), Value(BalanceAxis.Finger), Value(BalanceAxis.Top), IsEstimate: false);

        BalanceValue Value(BalanceAxis axis)
        {
            var reading = axis.On(sheet.Weights);
            var ounces = reading is null ? (double?)null : Physical.Value(reading);
            var limit = limits.MostOf(axis.Quantity);
            return new BalanceValue(
                axis, ounces is { } oz ? new Estimate(oz, oz, oz) : null, Ounces(limit), reading?.Text ?? "not measured", InWords(limit));
        }
    }

    /// <summary>Predicted values, each with its range, against the same limits.</summary>
    public static BalanceDrawing Predicted((Estimate Side, Estimate Finger, Estimate Top) balance, EditionLimits limits)
    {
        ArgumentNullException.ThrowIfNull(limits);
        return new BalanceDrawing(
            Value(BalanceAxis.Side, balance.Side), Value(BalanceAxis.Finger, balance.Finger), Value(BalanceAxis.Top, balance.Top),
                IsEstimate: true);

        BalanceValue Value(BalanceAxis axis, Estimate oz)
        {
            var limit = limits.MostOf(axis.Quantity);
            return new BalanceValue(axis, oz, Ounces(limit), $"{AdviceFigures.Range(oz)} oz", InWords(limit));
        }
    }

    private static double? Ounces(Bound? bound) => bound is null ? null : Seam.ToDouble(bound.Value / Units.GramsPerOunce);

    private static string InWords(Bound? bound) =>
        bound is null ? "no limit" : bound.Inclusive ? $"at most {bound.Text}" : $"under {bound.Text}";
}
