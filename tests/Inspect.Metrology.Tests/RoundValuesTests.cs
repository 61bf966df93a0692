using Inspect.Sheets.Readings;

namespace Inspect.Metrology.Tests;

/// <summary>Round values and counted shares. What is round for which step is common practice, no source.</summary>
public class RoundValuesTests
{
    [Theory]
    [InlineData("0.1 oz", "0.5 oz", 5)]
    [InlineData("0.05 oz", "0.5 oz", 10)]
    [InlineData("0.001 in", "0.005 in", 5)]
    [InlineData("1/64 in", "1/16 in", 4)]
    [InlineData("2 g", "10 g", 5)]
    [InlineData("0.25 oz", "1 oz", 4)]
    public void Of_AStep_IsTheCoarserOneAnEyeRoundsTo(string step, string coarse, int oneIn)
    {
        var quantity = step.EndsWith("in", StringComparison.Ordinal) ? Quantity.Length : Quantity.Imbalance;

        Assert.Equal(
            (ReadingParser.Parse(coarse, quantity).Reading!.Value, oneIn), RoundValues.Of(ReadingParser.Parse(step, quantity).Reading!));
    }

    [Theory]
    [InlineData("1.5 oz", true)]
    [InlineData("-2 oz", true)]
    [InlineData("0 oz", true)]
    [InlineData("1.4 oz", false)]
    [InlineData("1.51 oz", false)]
    public void IsOn_AHalf_IsExact(string reading, bool isOn) =>
        Assert.Equal(isOn, RoundValues.IsOn(ReadingParser.Parse(reading, Quantity.Imbalance).Reading!.Value, 0.5m * Units.GramsPerOunce));

    /// <summary>5 of 17 at 95 % is 10 % to 56 % (Clopper-Pearson, published), so that 9 % is under it and 11 % is not.</summary>
    [Theory]
    [InlineData(0.09, true)]
    [InlineData(0.11, false)]
    [InlineData(null, false)]
    public void IsMore_FiveOfSeventeen_NeedsTheWholeIntervalAbove(double? expected, bool isMore) =>
        Assert.Equal(isMore, new CountedShare(5, 17, expected).IsMore);

    [Theory]
    [InlineData(9, false)]
    [InlineData(10, true)]
    public void IsMore_FewReadings_SayNothing(int count, bool isMore) => Assert.Equal(isMore, new CountedShare(count, count, 0.2).IsMore);
}
