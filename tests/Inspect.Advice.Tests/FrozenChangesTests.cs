using System.Text;
using System.Text.Json.Nodes;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Advice.Tests;

/// <summary>What differs on a ball that was not to be changed, by more than its instruments do.</summary>
public sealed class FrozenChangesTests
{
    // The root of the sum of squares of 0.03 oz and 0.04 oz is 0.05 oz (JCGM 100:2008, 5.1.2), expanded with k = 2 (6.2.1) 0.1 oz.
    [Theory]
    [InlineData("0.60 oz", null)]
    [InlineData("0.61 oz", "Left or right 0.61 oz right now, 0.5 oz right on the slip: 0.11 oz apart, the instruments allow 0.1 oz.")]
    [InlineData("0.40 oz", null)]
    [InlineData("-0.5 oz", "Left or right 0.5 oz left now, 0.5 oz right on the slip: 1 oz apart, the instruments allow 0.1 oz.")]
    public void Between_UncertaintiesOfBoth_AreTheRootOfTheSumOfSquares(string now, string? sentence) => Assert.Equal(
        sentence, Assert.Single(Sentences(Weighed("0.5 oz"), Set("0.03 oz"), Weighed(now), Set("0.04 oz")).DefaultIfEmpty()));

    [Theory]
    [InlineData("1 oz", null)]
    [InlineData(
        "1.1 oz",
        "Left or right 1.1 oz right now, 0.5 oz right on the slip: 0.6 oz apart. The event states no uncertainty; 0.5 oz is assumed.")]
    public void Between_NoUncertainty_SaysWhatIsAssumed(string now, string? sentence) => Assert.Equal(
        sentence, Assert.Single(Sentences(Weighed("0.5 oz"), JudgingTerms.None, Weighed(now), JudgingTerms.None).DefaultIfEmpty()));

    [Fact]
    public void Between_ASerialAndHoles_NameWhatCameAndWhatIsGone()
    {
        var then = Holed("9QF-31207", ("thumb", "31/32 in"), ("ring", "27/32 in"));
        var now = Holed("9QF31208", ("thumb", "31/32 in"), ("middle", "7/8 in"));

        Assert.Equal(
            ["Serial 9QF31208 now, 9QF-31207 on the slip.", "Ring: 27/32 in wide on the slip, not there now.",
                "Middle: 7/8 in wide now, not on the slip."],
            Sentences(then, JudgingTerms.None, now, JudgingTerms.None));
    }

    [Fact]
    public void Between_TheSameBallWrittenOtherwiseOrMeasuredInPart_SaysNothing()
    {
        var then = Holed("9QF-31207", ("thumb", "31/32 in"));

        Assert.Empty(Sentences(then, JudgingTerms.None, Holed("9qf31207", ("thumb", "31/32 in")), JudgingTerms.None));
        Assert.Empty(Sentences(then, JudgingTerms.None, Weighed("0.5 oz"), JudgingTerms.None));
    }

    private static IEnumerable<string> Sentences(Sheet then, JudgingTerms thenTerms, Sheet now, JudgingTerms nowTerms) =>
        FrozenChanges.Between(then, thenTerms, now, nowTerms).Select(change => change.Sentence);

    private static JudgingTerms Set(string calibration) => JudgingTerms.None with
    {
        Uncertainties =
        [
            new Uncertainty(RuleQuantity.LeftRight, null, null, null, ReadingParser.Parse(calibration, Quantity.Imbalance).Reading!),
        ],
    };

    private static Sheet Weighed(string leftRight) => Read(new JsonObject { ["weights"] = new JsonObject { ["leftRight"] = leftRight } });

    private static Sheet Holed(string serial, params (string Digit, string Diameter)[] holes) => Read(new JsonObject
    {
        ["ball"] = new JsonObject { ["serial"] = serial },
        ["holes"] = new JsonArray([.. holes.Select(hole => new JsonObject
        {
            ["kind"] = "grip",
            ["digit"] = hole.Digit,
            ["diameter"] = hole.Diameter,
        })]),
    });

    private static Sheet Read(JsonObject sheet)
    {
        (sheet["play"], sheet["authority"]) = ("2027-03-14", "us-national");
        var faults = new List<Fault>();
        return SheetReader.Read(Encoding.UTF8.GetBytes(sheet.ToJsonString()), faults)
            ?? throw new InvalidOperationException(faults[0].Message);
    }
}
