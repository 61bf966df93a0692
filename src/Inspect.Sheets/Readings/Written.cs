using System.Globalization;

namespace Inspect.Sheets.Readings;

/// <summary>Writes an exact value in a given unit and notation, the way an inspector would.</summary>
public static class Written
{
    private const int ExactDecimals = 10;
    private const int MostDecimals = 28;
    private const int RoundedDecimals = 4;

    /// <summary>The value as text with its unit. It is a fraction when the notation asks for one and
    /// the value is a whole number of 1/128.</summary>
    /// <param name="value">In the base unit of its quantity.</param>
    /// <param name="notation">The unit and style.</param>
    public static string As(decimal value, Notation notation) => Beside(value, notation, []);

    /// <summary>The value as text, with enough decimals to be on the correct side of every limit in <paramref name="limits"/>.</summary>
    /// <param name="value">In the base unit of its quantity.</param>
    /// <param name="notation">The unit and style.</param>
    /// <param name="limits">In the same base unit. A value over a limit is never written like the limit itself.</param>
    public static string Beside(decimal value, Notation notation, IReadOnlyList<decimal> limits) => notation.Unit switch
    {
        Unit.PoundOunce => PoundsAndOunces(value, notation),
        Unit.ShoreD => Number(value, notation, limits),
        _ => $"{Number(InUnit(value, notation.Unit), notation, limits.Select(limit => InUnit(limit, notation.Unit)))} "
            + Units.Mark(notation.Unit),
    };

    /// <summary>A difference as text: as <see cref="As"/> writes it, but a difference of temperatures has no offset.</summary>
    public static string Difference(decimal value, Notation notation) => notation.Unit == Unit.Celsius
        ? $"{Number(value / 1.8m, notation, [])} C"
        : As(value, notation);

    private static decimal InUnit(decimal value, Unit unit) => unit == Unit.Celsius ? (value - 32m) / 1.8m : value / Units.Factor(unit);

    private static string PoundsAndOunces(decimal grams, Notation notation)
    {
        var ounces = Math.Abs(grams) / Units.GramsPerOunce;
        var pounds = Math.Truncate(ounces / Units.OuncesPerPound);
        var rest = ounces - (pounds * Units.OuncesPerPound);
        var sign = grams < 0 ? "-" : "";
        return pounds == 0 ? $"{sign}{Number(rest, notation, [Units.OuncesPerPound])} oz"
            : rest == 0 ? $"{sign}{Plain(pounds)} lb"
            : $"{sign}{Plain(pounds)} lb {Number(rest, notation, [Units.OuncesPerPound])} oz";
    }

    private static string Number(decimal number, Notation notation, IEnumerable<decimal> limits) =>
        notation.Fraction && AsFraction(number) is { } fraction ? fraction
        : Plain(Math.Round(number, ExactDecimals) == number ? number : Rounded(number, [0m, .. limits]));

    private static string? AsFraction(decimal number)
    {
        var parts = Math.Abs(number) * 128m;
        if (parts != Math.Truncate(parts) || parts > 128_000_000m)
        {
            return null;
        }

        var (numerator, denominator) = ((long)parts, 128L);
        while (denominator > 1 && numerator % 2 == 0)
        {
            (numerator, denominator) = (numerator / 2, denominator / 2);
        }

        var sign = number < 0 ? "-" : "";
        var (whole, rest) = (numerator / denominator, numerator % denominator);
        return rest == 0 ? string.Create(CultureInfo.InvariantCulture, $"{sign}{whole}")
            : whole == 0 ? string.Create(CultureInfo.InvariantCulture, $"{sign}{rest}/{denominator}")
            : string.Create(CultureInfo.InvariantCulture, $"{sign}{whole} {rest}/{denominator}");
    }

    /// <summary>Rounded to four decimals or more, the fewest that keep it on the correct side of every limit; for a number that ten
    /// decimals do not give exactly.</summary>
    private static decimal Rounded(decimal number, decimal[] limits)
    {
        for (var decimals = RoundedDecimals; decimals < MostDecimals; decimals++)
        {
            var rounded = Math.Round(number, decimals, MidpointRounding.AwayFromZero);
            if (limits.All(limit => rounded.CompareTo(limit) == number.CompareTo(limit)))
            {
                return rounded;
            }
        }

        return number;
    }

    /// <summary>The number with all its decimals and no zero behind them.</summary>
    public static string Plain(decimal number)
    {
        // Trimmed by hand: the format that says the same costs several times as much, and a record has a hundred of these.
        var digits = number.ToString(CultureInfo.InvariantCulture);
        return number == 0 ? "0" : digits.Contains('.', StringComparison.Ordinal) ? digits.TrimEnd('0').TrimEnd('.') : digits;
    }
}
