using System.Globalization;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Tests;

/// <summary>The two limits of a go gauge, as they are written on it. Common practice, no source.</summary>
public class GaugeLimitsTests
{
    [Theory]
    [InlineData("26.704 to 27.002 in", "26.704", "27.002")]
    [InlineData("8 1/2 in to 8 19/32 in", "8.5", "8.59375")]
    [InlineData("215.9 to 218.313 mm", "8.5", "8.595")]
    public void Parse_TwoLengths_AreTheLimitsInInches(string text, string least, string most)
    {
        var (limits, refusal) = GaugeLimits.Parse(text);

        Assert.Null(refusal);
        Assert.Equal((text, least, most), (limits!.Text, Inches(limits.Least.Value), Inches(limits.Most.Value)));

        static string Inches(decimal value) =>
            Math.Round(value / Units.Factor(Unit.Inch), 5).ToString("0.#####", CultureInfo.InvariantCulture);
    }

    [Theory]
    [InlineData("27.002 in")]
    [InlineData("26.704 to 27.002")]
    [InlineData("27.002 to 26.704 in")]
    [InlineData("8.5 to 8.5 in")]
    [InlineData("go")]
    [InlineData(" to ")]
    public void Parse_AnythingElse_IsRefusedInASentence(string text)
    {
        var (limits, refusal) = GaugeLimits.Parse(text);

        Assert.Null(limits);
        Assert.Equal(
            $"\"{text}\" is not what a gauge has; write its two limits with the unit, the smaller first, as 26.704 to 27.002 in.", refusal);
    }
}
