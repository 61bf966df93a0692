using System.Globalization;
using Inspect.Sheets.Readings;

namespace Inspect.Station.Web;

/// <summary>A figure in the unit it was written in, with the other system of units behind it: <c>15 lb 1 oz (6.83 kg)</c>.</summary>
/// <remarks>The first figure is exact. The second one is rounded to as many decimals as keep all the figures that stand together in their
/// order, so that a reading over a limit never looks like the limit.</remarks>
public static class BothUnits
{
    private const int MostDecimals = 10;

    /// <summary>The figure in words.</summary>
    /// <param name="value">In the base unit of what it measures.</param>
    /// <param name="notation">How it was written.</param>
    /// <param name="beside">The figures that stand beside it, in the same unit.</param>
    /// <param name="language">The language.</param>
    public static string Of(decimal value, Notation notation, IReadOnlyList<decimal> beside, Language language)
    {
        var written = Whole(language.Number(Written.Beside(value, notation, beside)));
        if (notation.Unit == Unit.ShoreD)
        {
            return Whole($"{written} Shore D");
        }

        if (Other(value, notation.Unit) is not var (unit, decimals))
        {
            return written;
        }

        decimal[] all = [value, .. beside];
        while (decimals < MostDecimals && !KeepsOrder(all, unit, decimals))
        {
            decimals++;
        }

        var other = In(value, unit, decimals).ToString($"F{decimals}", CultureInfo.InvariantCulture);
        return $"{written} ({Whole($"{language.Number(other)} {Units.Mark(unit)}")})";
    }

    /// <summary>The unit of the other system, and its usual decimals; null where both systems have the same.</summary>
    private static (Unit Unit, int Decimals)? Other(decimal value, Unit unit) => unit switch
    {
        Unit.Inch => (Unit.Millimetre, 1),
        Unit.Millimetre or Unit.Centimetre => (Unit.Inch, 3),
        Unit.Ounce or Unit.Pound or Unit.PoundOunce => IsHeavy(value) ? (Unit.Kilogram, 2) : (Unit.Gram, 1),
        Unit.Gram or Unit.Kilogram => IsHeavy(value) ? (Unit.Pound, 2) : (Unit.Ounce, 2),
        Unit.MicroInch => (Unit.Micrometre, 2),
        Unit.Micrometre => (Unit.MicroInch, 1),
        _ => null,
    };

    // A line never breaks between a number and its unit.
    private static string Whole(string figure) => figure.Replace(' ', '\u00A0');

    private static bool IsHeavy(decimal grams) => Math.Abs(grams) >= Units.Factor(Unit.Pound);

    private static decimal In(decimal value, Unit unit, int decimals) =>
        Math.Round(value / Units.Factor(unit), decimals, MidpointRounding.AwayFromZero);

    private static bool KeepsOrder(decimal[] all, Unit unit, int decimals) => all.All(one => all.All(
        other => one.CompareTo(other) == In(one, unit, decimals).CompareTo(In(other, unit, decimals))));
}
