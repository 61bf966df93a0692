using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Inspect.Sheets.Readings;

/// <summary>The one strict parser of measured values, for forms and JSON.</summary>
/// <remarks>
/// A number is whole, decimal, a fraction or a mixed number. The denominators are the powers of two from 2 to 128, as on rules and drill
/// bits. Exponents and commas are refused. Values stay exact: lengths in millimetres, weights in grams.
/// </remarks>
public static partial class ReadingParser
{
    private const int LongestText = 40;
    private const int MostWholeDigits = 6;
    private const int MostDecimals = 10;
    private const string Denominators = "2, 4, 8, 16, 32, 64 or 128";

    /// <summary>Reads <paramref name="text"/> as a <paramref name="quantity"/>.</summary>
    /// <param name="text">As typed or received.</param>
    /// <param name="quantity">The quantity that the field or member measures.</param>
    /// <param name="assumed">The unit of a number without one. A form field passes its own, JSON passes none.</param>
    public static ReadingResult Parse(string text, Quantity quantity, Unit? assumed = null)
    {
        var shown = text.Trim();
        if (shown.Length == 0)
        {
            return ReadingResult.Refused($"Nothing was written; write {Units.Example(quantity)}.");
        }

        if (shown.Length > LongestText)
        {
            return Refuse(Cut(shown), $"is too long for a reading; write {Units.Example(quantity)}");
        }

        if (HasControl(shown))
        {
            return Refuse(string.Concat(shown.Select(sign => char.IsControl(sign) ? ' ' : sign)),
                $"has a tab, a line break or another control character; write {Units.Example(quantity)}");
        }

        var plain = Plain(shown);
        if (plain.Contains(',', StringComparison.Ordinal))
        {
            return Refuse(
                shown,
                "has a comma, which can mean two things; write a point for decimals and nothing between thousands, "
                + $"as in {Units.Example(quantity)}");
        }

        if (plain.AsSpan().IndexOfAny('e', 'E', '^') >= 0 && ExponentShape().IsMatch(plain))
        {
            return Refuse(shown, $"has an exponent; write the number out in full, as in {Units.Example(quantity)}");
        }

        return quantity == Quantity.Weight && PoundsAndOunces(plain, assumed) is { Success: true } both
            ? ReadPoundsAndOunces(shown, both)
            : ReadSingle(shown, plain, quantity, assumed);
    }

    private static ReadingResult ReadSingle(string shown, string plain, Quantity quantity, Unit? assumed)
    {
        var match = SingleShape().Match(plain);
        if (!match.Success)
        {
            return Refuse(shown, $"is not a number that can be read; write {Units.Example(quantity)}");
        }

        var mark = match.Groups["unit"].Value.TrimEnd('.').ToLowerInvariant();
        var (unit, unitRefusal) = UnitOf(mark, quantity, assumed);
        if (unit is null)
        {
            return Refuse(shown, unitRefusal!);
        }

        var (number, notation, numberRefusal) = NumberOf(match.Groups["number"].Value, unit.Value);
        if (number is null)
        {
            return Refuse(shown, numberRefusal!);
        }

        if (mark.Length == 0 && unit == Unit.PoundOunce)
        {
            if (notation.Fraction || notation.Decimals > 0)
            {
                return Refuse(shown, "could be pounds and ounces or parts of a pound; write 15-1 1/2 for 15 lb 1 1/2 oz, or add lb");
            }

            unit = Unit.Pound;
            notation = notation with { Unit = Unit.Pound };
        }

        var signed = match.Groups["sign"].Value == "-" ? -number.Value : number.Value;
        var value = unit == Unit.Celsius ? (signed * 1.8m) + 32m : signed * Units.Factor(unit.Value);
        if (RangeRefusal(value, quantity) is { } outOfRange)
        {
            return Refuse(shown, outOfRange);
        }

        var asTyped = mark.Length == 0 && unit != Unit.ShoreD ? $"{shown} {Units.Mark(unit.Value)}" : shown;
        return ReadingResult.Of(new Reading(asTyped, quantity, value, notation));
    }

    private static ReadingResult ReadPoundsAndOunces(string shown, Match match)
    {
        var (pounds, poundsNotation, poundsRefusal) = NumberOf(match.Groups["pounds"].Value, Unit.PoundOunce);
        var (ounces, ouncesNotation, ouncesRefusal) = NumberOf(match.Groups["ounces"].Value, Unit.PoundOunce);
        if (pounds is null || ounces is null)
        {
            return Refuse(shown, poundsRefusal ?? ouncesRefusal!);
        }

        if (match.Groups["sign"].Value == "-")
        {
            return Refuse(shown, "is negative; a weight must be above zero");
        }

        if (ouncesNotation.Fraction && ounces.Value < 1 && !match.Groups["mark"].Success)
        {
            var part = match.Groups["ounces"].Value;
            return Refuse(
                shown,
                $"could be ounces or parts of a pound; write {Trim(pounds.Value)} lb {part} oz or {Trim(pounds.Value)} {part} lb");
        }

        if (poundsNotation.Fraction || poundsNotation.Decimals > 0)
        {
            return Refuse(shown, "has parts of a pound and ounces; write whole pounds and ounces, as in 15 lb 1 1/2 oz");
        }

        if (ounces.Value >= Units.OuncesPerPound)
        {
            return Refuse(shown, $"has {Trim(ounces.Value)} oz, which is a pound or more; write the ounces under 16, as in 15 lb 1 oz");
        }

        var value = ((pounds.Value * Units.OuncesPerPound) + ounces.Value) * Units.GramsPerOunce;
        if (RangeRefusal(value, Quantity.Weight) is { } outOfRange)
        {
            return Refuse(shown, outOfRange);
        }

        var text = match.Groups["mark"].Success ? shown : $"{Trim(pounds.Value)} lb {match.Groups["ounces"].Value} oz";
        return ReadingResult.Of(new Reading(text, Quantity.Weight, value, ouncesNotation));
    }

    private static Match PoundsAndOunces(string plain, Unit? assumed)
    {
        var spelled = PoundOunceShape().Match(plain);
        return spelled.Success || assumed != Unit.PoundOunce ? spelled : PoundDashOunceShape().Match(plain);
    }

    private static (Unit? Unit, string? Refusal) UnitOf(string mark, Quantity quantity, Unit? assumed)
    {
        if (mark.Length == 0)
        {
            return quantity == Quantity.Hardness ? (Unit.ShoreD, null)
                : assumed is not null ? (assumed, null)
                : (null, $"has no unit; write {Units.Example(quantity)}");
        }

        return Units.Named(mark) is { } unit && Units.Fits(unit, quantity) ? (unit, null)
            : mark is "'" or "ft" or "foot" or "feet" ? (null, $"is in feet, which are not used here; write {Units.Example(quantity)}")
            : mark.Any(char.IsAsciiDigit) ? (null, $"is not one number with one unit; write {Units.Example(quantity)}")
            : (null, $"is in \"{mark}\", which is not used here; write {Units.Example(quantity)}");
    }

    private static (decimal? Number, Notation Notation, string? Refusal) NumberOf(string text, Unit unit)
    {
        // Most readings are written so; what is longer or otherwise goes the long way, with its refusals.
        if (text.Length is > 0 and <= MostWholeDigits && text[0] != '.' && decimal.TryParse(
            text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var plain) && text[^1] != '.')
        {
            var point = text.IndexOf('.', StringComparison.Ordinal);
            return (plain, new Notation(unit, false, point < 0 ? 0 : text.Length - point - 1), null);
        }

        var match = NumberShape().Match(text);
        if (!match.Success)
        {
            return (null, default, "is not a number that can be read; write a whole number, a decimal or a fraction such as 1 9/16");
        }

        if (match.Groups["digits"].Length > MostWholeDigits || match.Groups["decimals"].Length > MostDecimals
            || match.Groups["whole"].Length > MostWholeDigits || match.Groups["numerator"].Length > MostWholeDigits)
        {
            return (null, default,
                $"has more digits than can be measured; write at most {MostWholeDigits} before the point and {MostDecimals} after it");
        }

        if (match.Groups["decimal"].Success)
        {
            var digits = match.Groups["decimal"].Value;
            var decimals = match.Groups["decimals"].Length;
            var parsed = decimal.Parse(digits, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
            return (parsed, new Notation(unit, false, decimals), null);
        }

        var whole = match.Groups["whole"].Success ? Whole(match.Groups["whole"].Value) : 0m;
        var numerator = Whole(match.Groups["numerator"].Value);
        var written = match.Groups["denominator"].Value;
        var denominator = written.Length > MostWholeDigits ? 0m : Whole(written);
        if (denominator is not (2 or 4 or 8 or 16 or 32 or 64 or 128))
        {
            return (null, default, $"has a denominator of {written}; use {Denominators}, or a decimal");
        }

        if (match.Groups["whole"].Success && numerator >= denominator)
        {
            return (null, default, $"has {numerator}/{denominator} after a whole number, which is one or more; carry it over");
        }

        return (whole + (numerator / denominator), new Notation(unit, true), null);
    }

    private static string? RangeRefusal(decimal value, Quantity quantity) => quantity switch
    {
        Quantity.Length when value <= 0 => "is not above zero; a measured length must be",
        Quantity.Weight when value <= 0 => "is not above zero; a weight must be",
        Quantity.Volume when value <= 0 => "is not above zero; a volume must be",
        Quantity.Roughness when value < 0 => "is negative; a roughness is zero or more",
        Quantity.Density when value <= 0 => "is not above zero; a density must be",
        Quantity.Duration when value < 0 => "is negative; a time here is zero or more",
        Quantity.Hardness when value is < 0 or > 100 => "is off the scale; Shore D runs from 0 to 100",
        Quantity.Temperature when value is < -40 or > 140 => "is not the temperature of a room; write 72 F or 22 C",
        _ => null,
    };

    /// <summary>The text with plain signs instead of typographic ones: fractions, primes, dashes, fraction slash, narrow spaces.</summary>
    private static string Plain(string text)
    {
        if (Ascii.IsValid(text) && !text.Contains("  ", StringComparison.Ordinal) && !text.Contains("''", StringComparison.Ordinal))
        {
            return text;
        }

        var plain = new StringBuilder(text.Length + 8);
        foreach (var sign in text)
        {
            if (VulgarFraction(sign) is { } fraction)
            {
                if (plain.Length > 0 && char.IsAsciiDigit(plain[^1]))
                {
                    plain.Append(' ');
                }

                plain.Append(fraction);
                continue;
            }

            plain.Append(sign switch
            {
                '\u2044' or '\u2215' => '/',
                '\u03bc' => '\u00b5',
                '\u2033' or '\u201d' or '\u201c' => '"',
                '\u2032' or '\u2019' => '\'',
                '\u2212' or '\u2010' or '\u2011' or '\u2012' or '\u2013' => '-',
                _ when char.IsWhiteSpace(sign) => ' ',
                _ => sign,
            });
        }

        return Spaces().Replace(plain.ToString(), " ").Replace("''", "\"", StringComparison.Ordinal).Trim();
    }

    /// <summary>A one-sign fraction spelled out. Thirds and the like are spelled out too, and then refused for their denominator.</summary>
    private static string? VulgarFraction(char sign) => sign switch
    {
        '½' => "1/2",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅕' => "1/5",
        '⅖' => "2/5",
        '⅗' => "3/5",
        '⅘' => "4/5",
        '⅙' => "1/6",
        '⅚' => "5/6",
        '⅐' => "1/7",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '⅑' => "1/9",
        '⅒' => "1/10",
        '↉' => "0/3",
        _ => null,
    };

    private static bool HasControl(string text)
    {
        foreach (var sign in text)
        {
            if (char.IsControl(sign))
            {
                return true;
            }
        }

        return false;
    }

    private static decimal Whole(string digits) => decimal.Parse(digits, NumberStyles.None, CultureInfo.InvariantCulture);

    private static string Trim(decimal value) => value.ToString("0.##########", CultureInfo.InvariantCulture);

    /// <summary>The beginning of a long text. It never ends in half a character.</summary>
    private static string Cut(string text) => text[..(char.IsHighSurrogate(text[LongestText - 1]) ? LongestText - 1 : LongestText)] + "…";

    private static ReadingResult Refuse(string shown, string what) => ReadingResult.Refused($"\"{shown}\" {what}.");

    // Digits are written [0-9]: the class \d also matches the digits of other scripts, which decimal.Parse does not read.
    private const string Number = "(?:[0-9]+(?:\\.[0-9]+)?|\\.[0-9]+|(?:[0-9]+[ -])?[0-9]+/[0-9]+)";

    [GeneratedRegex(
        "^(?<sign>[-+]?) ?(?<number>" + Number + ") ?(?<unit>[\"'°]|[°µa-z][a-z0-9³/ °.·]*)?$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex SingleShape();

    [GeneratedRegex(
        "^(?<sign>-?)(?<pounds>" + Number + ") ?(?<mark>lbs?\\.?|pounds?) ?(?<ounces>" + Number + ") ?(?:oz\\.?|ounces?)$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex PoundOunceShape();

    [GeneratedRegex("^(?<sign>)(?<pounds>[0-9]+) ?- ?(?<ounces>" + Number + ")$", RegexOptions.CultureInvariant)]
    private static partial Regex PoundDashOunceShape();

    [GeneratedRegex(
        "^(?:(?<decimal>(?<digits>[0-9]*)(?:\\.(?<decimals>[0-9]+))?)"
        + "|(?:(?<whole>[0-9]+)[ -])?(?<numerator>[0-9]+)/(?<denominator>[0-9]+))$",
        RegexOptions.CultureInvariant)]
    private static partial Regex NumberShape();

    [GeneratedRegex("[0-9.] ?[e^][-+]?[0-9]", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex ExponentShape();

    [GeneratedRegex(" {2,}", RegexOptions.CultureInvariant)]
    private static partial Regex Spaces();
}
