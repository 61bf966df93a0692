using System.Globalization;
using System.Numerics;
using CsCheck;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Tests.Readings;

/// <summary>The reading grammar, defined by this project; factors from the international yard and pound agreement of 1959.</summary>
public class ReadingParserTests
{
    // 1 in = 25.4 mm; 1 lb = 453.59237 g, so 1 oz = 28.349523125 g (agreement of 1959), written as whole fractions.
    private static readonly (BigInteger Top, BigInteger Bottom) Inch = (254, 10);
    private static readonly (BigInteger Top, BigInteger Bottom) Ounce = (28349523125, 1000000000);
    private static readonly (BigInteger Top, BigInteger Bottom) One = (1, 1);

    [Theory]
    [InlineData("1 9/16 in", 25, 16)]
    [InlineData("1-9/16 in", 25, 16)]
    [InlineData("1 9/16\"", 25, 16)]
    [InlineData("1 9/16″", 25, 16)]
    [InlineData("1 9/16”", 25, 16)]
    [InlineData("1 9/16''", 25, 16)]
    [InlineData("1 9/16′′", 25, 16)]
    [InlineData("1 9⁄16 in", 25, 16)]
    [InlineData("1\u00a09/16\u202fin", 25, 16)]
    [InlineData("31/32 in", 31, 32)]
    [InlineData("1.5625 in", 15625, 10000)]
    [InlineData("½ in", 1, 2)]
    [InlineData("⅞\"", 7, 8)]
    [InlineData("1½ in", 3, 2)]
    [InlineData("1 ½ inches", 3, 2)]
    [InlineData(".5 in.", 1, 2)]
    [InlineData("  2 IN  ", 2, 1)]
    [InlineData("9/8 in", 9, 8)]
    public void Parse_Inches_IsExactMillimetres(string text, int top, int bottom) =>
        IsExactly(text, Quantity.Length, null, top, bottom, Inch);

    [Theory]
    [InlineData("39.6875 mm", 396875, 10000)]
    [InlineData("3.96875 cm", 396875, 10000)]
    public void Parse_Metric_IsExactMillimetres(string text, int top, int bottom) =>
        IsExactly(text, Quantity.Length, null, top, bottom, One);

    [Theory]
    [InlineData("16 lb", 256, 1)]
    [InlineData("15 lb 1 oz", 241, 1)]
    [InlineData("15lb1oz", 241, 1)]
    [InlineData("15 lbs. 1 oz.", 241, 1)]
    [InlineData("15 pounds 1 ounce", 241, 1)]
    [InlineData("15 lb 1 1/2 oz", 483, 2)]
    [InlineData("15 lb 1½ oz", 483, 2)]
    [InlineData("15 lb 15.99 oz", 25599, 100)]
    [InlineData("16 lb 0.1 oz", 2561, 10)]
    [InlineData("15.06 lb", 24096, 100)]
    [InlineData("241 oz", 241, 1)]
    public void Parse_Pounds_IsExactGrams(string text, int top, int bottom) => IsExactly(text, Quantity.Weight, null, top, bottom, Ounce);

    [Theory]
    [InlineData("4.54 kg", 4540)]
    [InlineData("6830 g", 6830)]
    public void Parse_MetricWeight_IsExactGrams(string text, int grams) => IsExactly(text, Quantity.Weight, null, grams, 1, One);

    [Theory]
    [InlineData("1.25 oz", 5, 4)]
    [InlineData("1 1/4 oz", 5, 4)]
    [InlineData("+1 oz", 1, 1)]
    [InlineData("-0.5 oz", -1, 2)]
    [InlineData("−½ oz", -1, 2)]
    [InlineData("-1 1/2 oz", -3, 2)]
    [InlineData("-1-1/2 oz", -3, 2)]
    [InlineData("0 oz", 0, 1)]
    public void Parse_Imbalance_KeepsTheSide(string text, int top, int bottom) =>
        IsExactly(text, Quantity.Imbalance, null, top, bottom, Ounce);

    [Theory]
    [InlineData("74", Quantity.Hardness, "74")]
    [InlineData("74.5", Quantity.Hardness, "74.5")]
    [InlineData("74 D", Quantity.Hardness, "74")]
    [InlineData("100", Quantity.Hardness, "100")]
    [InlineData("0", Quantity.Hardness, "0")]
    [InlineData("72 F", Quantity.Temperature, "72")]
    [InlineData("72 °F", Quantity.Temperature, "72")]
    [InlineData("22 C", Quantity.Temperature, "71.6")]
    [InlineData("22.5°C", Quantity.Temperature, "72.5")]
    [InlineData("35.4 g", Quantity.Imbalance, "35.4")]
    [InlineData("-1/4 in", Quantity.SignedLength, "-6.35")]
    [InlineData("-45 deg", Quantity.Angle, "-45")]
    [InlineData("1.18 g/cm3", Quantity.Density, "1.18")]
    [InlineData("90 min", Quantity.Duration, "90")]
    [InlineData("18 µin", Quantity.Roughness, "0.4572")]
    [InlineData("18 μin", Quantity.Roughness, "0.4572")]
    [InlineData("18 uin", Quantity.Roughness, "0.4572")]
    [InlineData("0.45 µm", Quantity.Roughness, "0.45")]
    [InlineData("0.45 um", Quantity.Roughness, "0.45")]
    public void Parse_OtherQuantities_AreInTheirBaseUnit(string text, Quantity quantity, string value) =>
        Assert.Equal(decimal.Parse(value, CultureInfo.InvariantCulture), Accepted(text, quantity).Value);

    [Theory]
    [InlineData("1 9/16", Quantity.Length, Unit.Inch, "1 9/16 in")]
    [InlineData("½", Quantity.Length, Unit.Inch, "½ in")]
    [InlineData("15-1 1/2", Quantity.Weight, Unit.PoundOunce, "15 lb 1 1/2 oz")]
    [InlineData("15 - 1½", Quantity.Weight, Unit.PoundOunce, "15 lb 1 1/2 oz")]
    [InlineData("15-0", Quantity.Weight, Unit.PoundOunce, "15 lb 0 oz")]
    [InlineData("15", Quantity.Weight, Unit.PoundOunce, "15 lb")]
    [InlineData("15.5 lb", Quantity.Weight, Unit.PoundOunce, "15.5 lb")]
    [InlineData("1.25", Quantity.Imbalance, Unit.Ounce, "1.25 oz")]
    [InlineData("40 mm", Quantity.Length, Unit.Inch, "40 mm")]
    [InlineData("22", Quantity.Temperature, Unit.Celsius, "22 C")]
    [InlineData("74", Quantity.Hardness, Unit.ShoreD, "74")]
    [InlineData("18", Quantity.Roughness, Unit.MicroInch, "18 µin")]
    public void Parse_FieldWithAUnit_GivesATextThatReadsTheSameWithoutIt(string typed, Quantity quantity, Unit assumed, string text)
    {
        var reading = Accepted(typed, quantity, assumed);
        Assert.Equal(text, reading.Text);
        Assert.Equal(reading, Accepted(text, quantity));
    }

    [Theory]
    [InlineData("1,5 in", Quantity.Length, "comma")]
    [InlineData("1,234.5 g", Quantity.Weight, "comma")]
    [InlineData("1/0 in", Quantity.Length, "denominator of 0")]
    [InlineData("1/3 in", Quantity.Length, "denominator of 3")]
    [InlineData("⅓ in", Quantity.Length, "denominator of 3")]
    [InlineData("1/256 in", Quantity.Length, "denominator of 256")]
    [InlineData("1/1000000 in", Quantity.Length, "denominator of 1000000")]
    [InlineData("1 17/16 in", Quantity.Length, "carry it over")]
    [InlineData("-2 in", Quantity.Length, "not above zero")]
    [InlineData("0 in", Quantity.Length, "not above zero")]
    [InlineData("5 ft", Quantity.Length, "feet")]
    [InlineData("8'", Quantity.Length, "feet")]
    [InlineData("8′", Quantity.Length, "feet")]
    [InlineData("5 lb", Quantity.Length, "\"lb\", which is not used here")]
    [InlineData("1.5", Quantity.Length, "no unit")]
    [InlineData("½", Quantity.Length, "no unit")]
    [InlineData("2.75 3 in", Quantity.Length, "not a number")]
    [InlineData("5. oz", Quantity.Imbalance, "not a number")]
    [InlineData("1 1 oz", Quantity.Imbalance, "not a number")]
    [InlineData("--1 oz", Quantity.Imbalance, "not a number")]
    [InlineData("oz", Quantity.Imbalance, "not a number")]
    [InlineData("٣ in", Quantity.Length, "not a number")]
    [InlineData("３ in", Quantity.Length, "not a number")]
    [InlineData("1\n9/16 in", Quantity.Length, "line break")]
    [InlineData("1\u00009/16 in", Quantity.Length, "control character")]
    [InlineData("1234567 g", Quantity.Weight, "more digits")]
    [InlineData("1.00000000001 oz", Quantity.Imbalance, "more digits")]
    [InlineData("15 lbs 17 oz", Quantity.Weight, "17 oz, which is a pound or more")]
    [InlineData("15 lb 16 oz", Quantity.Weight, "which is a pound or more")]
    [InlineData("15.5 lb 1 oz", Quantity.Weight, "parts of a pound")]
    [InlineData("-15 lb 1 oz", Quantity.Weight, "negative")]
    [InlineData("0 lb 0 oz", Quantity.Weight, "not above zero")]
    [InlineData("15 lb 1", Quantity.Weight, "not one number with one unit")]
    [InlineData("15 lb 1 oz", Quantity.Imbalance, "not one number with one unit")]
    [InlineData("15-1", Quantity.Weight, "not a number")]
    [InlineData("NaN", Quantity.Weight, "not a number")]
    [InlineData("Infinity oz", Quantity.Weight, "not a number")]
    [InlineData("1e400 oz", Quantity.Weight, "exponent")]
    [InlineData("1E-3 oz", Quantity.Imbalance, "exponent")]
    [InlineData("2^3 oz", Quantity.Imbalance, "exponent")]
    [InlineData("120", Quantity.Hardness, "off the scale")]
    [InlineData("-1", Quantity.Hardness, "off the scale")]
    [InlineData("72", Quantity.Temperature, "no unit")]
    [InlineData("295 K", Quantity.Temperature, "\"k\", which is not used here")]
    [InlineData("720 F", Quantity.Temperature, "not the temperature of a room")]
    public void Parse_UnusableText_IsRefusedInOneSentenceThatQuotesIt(string text, Quantity quantity, string says)
    {
        var refusal = Refused(text, quantity);
        Assert.Contains(says, refusal, StringComparison.Ordinal);
        Assert.StartsWith(
            "\"" + new string([.. text.Select(sign => char.IsControl(sign) ? ' ' : sign)]) + "\" ", refusal, StringComparison.Ordinal);
        Assert.EndsWith(".", refusal, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("15.5")]
    [InlineData("15 1/2")]
    [InlineData("15-1/2")]
    public void Parse_PoundsFieldWithPartsOfOneNumber_IsRefusedAsTwofold(string text) =>
        Assert.Contains("could be", ReadingParser.Parse(text, Quantity.Weight, Unit.PoundOunce).Refusal!, StringComparison.Ordinal);

    [Theory]
    [InlineData("")]
    [InlineData(" \u00a0 ")]
    public void Parse_Nothing_SaysWhatToWrite(string text) =>
        Assert.StartsWith("Nothing was written; write ", Refused(text, Quantity.Length), StringComparison.Ordinal);

    [Fact]
    public void Parse_VeryLongText_IsRefusedAndCut()
    {
        var refusal = Refused(new string('9', 39) + string.Concat(Enumerable.Repeat("🎳", 50_000)), Quantity.Length);
        Assert.StartsWith("\"" + new string('9', 39) + "…\" is too long", refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void Parse_AnyText_NeverThrowsAndNeverTakesACommaOrExponent() => Gen.Select(
            Gen.OneOf(Gen.String[0, 50], Gen.Char["0123456789 ./-+,eElboz½⅞'\"″′⁄−٣inmcgkFCD°\t\ud83c"].Array[0, 14].Select(
                signs => new string(signs))),
            Gen.Enum<Quantity>())
        .Sample((text, quantity) =>
        {
            foreach (var assumed in new Unit?[] { null, Unit.PoundOunce, Unit.Inch })
            {
                var result = ReadingParser.Parse(text, quantity, assumed);
                Assert.True(result.Reading is null != result.Refusal is null);
                if (result.Reading is { } reading)
                {
                    Assert.DoesNotContain(',', text);
                    Assert.DoesNotMatch("[0-9] ?[eE][-+]?[0-9]", text);
                    Assert.DoesNotContain(reading.Text, char.IsControl);
                }
            }
        }, iter: 5_000);

    [Fact]
    public void Parse_PrintedFraction_IsTheSameValue() => Gen.Select(Gen.Int[0, 40], Gen.Int[1, 127], Gen.OneOf(2, 4, 8, 16, 32, 64, 128))
        .Sample((whole, top, bottom) =>
        {
            var inches = whole + ((decimal)(top % bottom) / bottom);
            foreach (var (unit, quantity) in new[] { (Unit.Inch, Quantity.SignedLength), (Unit.Ounce, Quantity.Imbalance) })
            {
                var value = inches * Units.Factor(unit);
                Assert.Equal(value, Accepted(Written.As(value, new Notation(unit, true)), quantity).Value);
            }
        });

    [Fact]
    public void Parse_PrintedDecimal_IsTheSameValueInEveryUnit() => Gen.Select(Gen.Int[1, 99_999_999], Gen.Int[0, 6], Gen.OneOf(
            (Unit.Inch, Quantity.Length), (Unit.Millimetre, Quantity.Length), (Unit.Centimetre, Quantity.Length),
            (Unit.Pound, Quantity.Weight),
            (Unit.PoundOunce, Quantity.Weight), (Unit.Ounce, Quantity.Weight), (Unit.Gram, Quantity.Weight),
            (Unit.Kilogram, Quantity.Weight)))
        .Where((digits, scale, _) => digits / Math.Pow(10, scale) < 60_000)
        .Sample((digits, scale, unit) =>
        {
            var value = new decimal(digits, 0, 0, false, (byte)scale) * Units.Factor(unit.Item1);
            Assert.Equal(value, Accepted(Written.As(value, new Notation(unit.Item1, false)), unit.Item2).Value);
        });

    private static void IsExactly(
        string text, Quantity quantity, Unit? assumed, int top, int bottom, (BigInteger Top, BigInteger Bottom) factor)
    {
        var bits = decimal.GetBits(Accepted(text, quantity, assumed).Value);
        var digits = bits.Take(3).Reverse().Aggregate(BigInteger.Zero, (sum, word) => (sum << 32) + unchecked((uint)word));
        var scale = BigInteger.Pow(10, (bits[3] >> 16) & 0xff);
        Assert.Equal(top * factor.Top * scale, (bits[3] < 0 ? -digits : digits) * bottom * factor.Bottom);
    }

    private static Reading Accepted(string text, Quantity quantity, Unit? assumed = null)
    {
        var result = ReadingParser.Parse(text, quantity, assumed);
        Assert.Null(result.Refusal);
        return result.Reading!;
    }

    private static string Refused(string text, Quantity quantity)
    {
        var result = ReadingParser.Parse(text, quantity);
        Assert.Null(result.Reading);
        return result.Refusal!;
    }
}
