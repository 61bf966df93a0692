using System.Globalization;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Rulesets;

/// <summary>One end of what is allowed.</summary>
/// <param name="Value">In the base unit of the quantity; a plain number for a count.</param>
/// <param name="Inclusive">Whether a reading equal to it conforms.</param>
/// <param name="Text">As the edition writes it.</param>
/// <param name="Notation">How it is written; absent for a count and for a day.</param>
public sealed record Bound(decimal Value, bool Inclusive, string Text, Notation? Notation = null);

/// <summary>What is allowed of a quantity or a count: a lower end, an upper end, or both.</summary>
public sealed record Limit(Bound? Least, Bound? Most)
{
    /// <summary>Whether both ends are the same value and both include it.</summary>
    public bool Exact => Least is { Inclusive: true } least && Most is { Inclusive: true } most && least.Value == most.Value;

    /// <summary>How far inside the nearer end the value lies; negative outside. A value on an exclusive end gives zero.</summary>
    /// <param name="value">The sum of <paramref name="count"/> readings, so that an average is compared without dividing.</param>
    /// <param name="count">How many readings the value sums.</param>
    public decimal Margin(decimal value, int count = 1) => MarginOfSum(value, count) / count;

    /// <summary>The margin times <paramref name="count"/>, which stays exact where the margin of an average would not.</summary>
    internal decimal MarginOfSum(decimal value, int count)
    {
        var below = Least is { } least ? value - (count * least.Value) : decimal.MaxValue;
        var above = Most is { } most ? (count * most.Value) - value : decimal.MaxValue;
        return Math.Min(below, above);
    }

    /// <summary>How a margin is written: as the reading is, except that a whole
    /// number takes the fraction of the limit (2 in against 4 1/2 in).</summary>
    internal Notation MarginNotation(Notation reading) =>
        reading is { Fraction: false, Decimals: 0, Unit: Unit.Inch or Unit.Pound or Unit.PoundOunce or Unit.Ounce }
            && (Least?.Notation?.Fraction == true || Most?.Notation?.Fraction == true)
            ? reading with { Fraction = true }
            : reading;

    /// <summary>Whether the value conforms; equality does, unless the end says over or under.</summary>
    public bool Allows(decimal value, int count = 1) =>
        (Least is not { } least || (least.Inclusive ? value >= count * least.Value : value > count * least.Value))
        && (Most is not { } most || (most.Inclusive ? value <= count * most.Value : value < count * most.Value));

    /// <summary>The limit in words, as in <c>at most 3 oz</c>.</summary>
    public override string ToString() => (Least, Most) switch
    {
        (null, { } most) => most.Inclusive ? (most.Value == 0 && most.Text == "0" ? "none" : $"at most {most.Text}") : $"under {most.Text}",
        ({ } least, null) => least.Inclusive ? $"at least {least.Text}" : $"over {least.Text}",
        ({ } least, { } most) when Exact => $"exactly {least.Text}",
        ({ Inclusive: true } least, { Inclusive: true } most) => $"{least.Text} to {most.Text}",
        ({ } least, { } most) => $"{new Limit(least, null)} and {new Limit(null, most)}",
        _ => "no limit",
    };

    internal static Bound Count(int count, bool inclusive = true) => new(count, inclusive, count.ToString(CultureInfo.InvariantCulture));

    internal static Bound Measure(Reading reading, bool inclusive) => new(reading.Value, inclusive, reading.Text, reading.Notation);
}
