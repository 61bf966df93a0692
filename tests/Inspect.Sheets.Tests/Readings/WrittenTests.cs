using System.Globalization;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Tests.Readings;

/// <summary>How values are written; the style is defined by this project.</summary>
public class WrittenTests
{
    [Theory]
    [InlineData("44.45", Unit.Inch, true, "1 3/4 in")]
    [InlineData("-44.45", Unit.Inch, true, "-1 3/4 in")]
    [InlineData("24.60625", Unit.Inch, true, "31/32 in")]
    [InlineData("50.8", Unit.Inch, true, "2 in")]
    [InlineData("44.45", Unit.Inch, false, "1.75 in")]
    [InlineData("2.54", Unit.Inch, true, "0.1 in")]
    [InlineData("1", Unit.Inch, false, "0.0394 in")]
    [InlineData("0.000001", Unit.Inch, false, "0.00000004 in")]
    [InlineData("0", Unit.Ounce, false, "0 oz")]
    [InlineData("-7.08738078125", Unit.Ounce, false, "-0.25 oz")]
    [InlineData("39.6875", Unit.Centimetre, false, "3.96875 cm")]
    [InlineData("6832.235073125", Unit.PoundOunce, true, "15 lb 1 oz")]
    [InlineData("6846.4098346875", Unit.PoundOunce, true, "15 lb 1 1/2 oz")]
    [InlineData("6846.4098346875", Unit.PoundOunce, false, "15 lb 1.5 oz")]
    [InlineData("-42.5242846875", Unit.PoundOunce, true, "-1 1/2 oz")]
    [InlineData("7257.47792", Unit.PoundOunce, false, "16 lb")]
    [InlineData("7257.477", Unit.PoundOunce, false, "15 lb 15.99997 oz")]
    [InlineData("74.5", Unit.ShoreD, false, "74.5")]
    [InlineData("71.6", Unit.Celsius, false, "22 C")]
    public void As_ExactValue_IsInTheUnitAndStyleAsked(string value, Unit unit, bool fraction, string text) =>
        Assert.Equal(text, Written.As(decimal.Parse(value, CultureInfo.InvariantCulture), new Notation(unit, fraction)));

    [Fact]
    public void As_MinusZero_HasNoSign() => Assert.Equal("0 oz", Written.As(-0.0m, new Notation(Unit.Ounce, false)));

    [Fact]
    public void Difference_Celsius_HasNoOffset() => Assert.Equal("2 C", Written.Difference(3.6m, new Notation(Unit.Celsius, false)));

    [Fact]
    public void Beside_ValueJustUnderALimit_NeverReadsAsTheLimit()
    {
        var shore = new Notation(Unit.ShoreD, false);
        Assert.Equal("71.999997", Written.Beside(215.99999m / 3, shore, [72m]));
        Assert.Equal("74.6667", Written.Beside(224m / 3, shore, [72m]));
        Assert.Equal("8.500003 in", Written.Beside((215.9m * 3 + 0.0002m) / 3, new Notation(Unit.Inch, false), [215.9m]));
    }
}
