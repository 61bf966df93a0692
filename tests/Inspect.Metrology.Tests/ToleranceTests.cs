using System.Globalization;
using Inspect.Sheets.Readings;

namespace Inspect.Metrology.Tests;

public class ToleranceTests
{
    /// <summary>NIST Handbook 44, 2.20, class III maintenance tolerances: the last division of a step, and the first of the next.</summary>
    [Theory]
    [InlineData("0", "0.1", "0.1")]
    [InlineData("1", "0.1", "0.1")]
    [InlineData("3", "0.1", "0.1")]
    [InlineData("49.9", "0.1", "0.1")]
    [InlineData("50", "0.1", "0.1")]
    [InlineData("50.1", "0.1", "0.2")]
    [InlineData("199.9", "0.1", "0.2")]
    [InlineData("200", "0.1", "0.2")]
    [InlineData("200.1", "0.1", "0.3")]
    [InlineData("256", "0.1", "0.3")]
    [InlineData("400", "0.1", "0.3")]
    [InlineData("400.1", "0.1", "0.5")]
    public void At_Load_IsTheToleranceOfItsStep(string load, string division, string tolerance) =>
        Assert.Equal(Number(tolerance), ScaleTolerance.At(Number(load), Number(division)));

    /// <summary>OIML R 111-1:2004, table 1, in mg.</summary>
    [Theory]
    [InlineData("20", "2.5", "8", "25")]
    [InlineData("100", "5", "16", "50")]
    [InlineData("1000", "50", "160", "500")]
    [InlineData("5000", "250", "800", "2500")]
    public void ErrorOf_NominalMass_IsThatOfItsClass(string grams, string m1, string m2, string m3) => Assert.Equal(
        [Number(m1), Number(m2), Number(m3)],
        ((string[])["M1", "M2", "M3"]).Select(name => CheckWeightClass.ErrorOf(name, Number(grams))!.Value * 1000));

    [Fact]
    public void ErrorOf_MassOrClassThatIsNoneOfTheSeries_IsUnknown() =>
        Assert.Equal((null, null), (CheckWeightClass.ErrorOf("M1", 30), CheckWeightClass.ErrorOf("M9", 100)));

    /// <summary>A display of tenths of an ounce may be one division off at 100 g: just inside, on it, just outside, both ways.</summary>
    [Theory]
    [InlineData("102.83", true)]
    [InlineData("102.8349523125", true)]
    [InlineData("102.84", false)]
    [InlineData("97.17", true)]
    [InlineData("97.16", false)]
    public void JudgeScale_OneHundredGrams_IsHeldToOneDivision(string shown, bool isGood)
    {
        var outcome = CheckOfScale.Judge(0.1m * Units.GramsPerOunce, [Zero("0"), Weight("M1", 100, shown)], Unit.Gram);

        Assert.Equal(isGood, outcome.IsGood);
        Assert.Empty(outcome.Unfit);
    }

    [Theory]
    [InlineData("2.8349523125", true)]
    [InlineData("2.84", false)]
    [InlineData("-2.84", false)]
    public void JudgeScale_EmptyScale_MayShowOneDivision(string shown, bool isGood) =>
        Assert.Equal(isGood, CheckOfScale.Judge(0.1m * Units.GramsPerOunce, [Zero(shown)], Unit.Gram).IsGood);

    /// <summary>At 5 kg (1,764 divisions) two divisions are 5.67 g, of which M2 (0.8 g) is under a third and M3 (2.5 g) is not.</summary>
    [Theory]
    [InlineData("M1", true)]
    [InlineData("M2", true)]
    [InlineData("M3", false)]
    public void JudgeScale_CheckWeightTooCoarseForItsTolerance_DecidesNothing(string name, bool isDecided)
    {
        var outcome = CheckOfScale.Judge(0.1m * Units.GramsPerOunce, [Zero("0"), Weight(name, 5000, "5000")], Unit.Gram);

        Assert.Equal(isDecided, outcome.IsDecided);
        Assert.Equal(isDecided, outcome.IsGood);
        Assert.Equal(isDecided ? 0 : 1, outcome.Unfit.Count);
    }

    /// <summary>Exactly a third is still good enough (OIML R 76-1, 3.7.1, from memory: not greater than a third).</summary>
    [Theory]
    [InlineData("0.033", true)]
    [InlineData("0.034", false)]
    [InlineData("0.0333333333", true)]
    public void JudgeStandard_OwnErrorAroundAThird_IsToldApart(string ownError, bool isDecided) => Assert.Equal(
        isDecided, CheckOfStandard.Judge(0.1m, [new CheckedPoint("block", 60, Number(ownError), [Hardness("60")])], Unit.ShoreD).IsDecided);

    /// <summary>A hardness block of 60 with 1 point of tolerance on its certificate, the average of five
    /// readings as ASTM D2240 takes them.</summary>
    [Theory]
    [InlineData("60 61 61 61 61.9", true)]
    [InlineData("60 61 61 61 62", true)]
    [InlineData("60 61 61 61 62.1", false)]
    [InlineData("59 59 59 59 59", true)]
    [InlineData("59 59 59 59 58.9", false)]
    public void JudgeStandard_DurometerBlock_ComparesTheAverage(string shown, bool isGood)
    {
        var point = new CheckedPoint("block", 60, 0.2m, [.. shown.Split(' ').Select(Hardness)]);

        Assert.Equal(isGood, CheckOfStandard.Judge(1m, [point], Unit.ShoreD).IsGood);
    }

    [Fact]
    public void Sentence_OfAPointOutside_NamesWhatWasShownAndWhatIsAllowed()
    {
        var outcome = CheckOfScale.Judge(0.1m * Units.GramsPerOunce, [Weight("M1", 100, "103")], Unit.Gram);

        Assert.Equal(
            "100 g weight: shows 103 g, 3 g high; up to 2.835 g either way is allowed, so this is outside.", outcome.Findings[0].Sentence);
    }

    private static CheckedPoint Zero(string shown) => new("zero", 0, 0, [Grams(shown)]);

    private static CheckedPoint Weight(string name, decimal grams, string shown) =>
        new($"{grams} g weight", grams, CheckWeightClass.ErrorOf(name, grams)!.Value, [Grams(shown)]);

    private static Reading Grams(string text) => ReadingParser.Parse(text, Quantity.Imbalance, Unit.Gram).Reading!;

    private static Reading Hardness(string text) => ReadingParser.Parse(text, Quantity.Hardness).Reading!;

    private static decimal Number(string text) => decimal.Parse(text, CultureInfo.InvariantCulture);
}
