using System.Text;
using System.Text.Json.Nodes;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Advice.Tests;

/// <summary>What a ball that was measured again reads otherwise, against what two readings of an unchanged ball may differ by.</summary>
public sealed class SheetChangesTests
{
    // u = 0.1/sqrt(12) (+) 0.03 (+) 0.03 = 0.051316 oz, the root of the sum of squares as in JCGM 100:2008; 2 sqrt2 u = 0.145143 oz.
    // ISO 5725-6 gives 2.8 for the factor (from memory).
    private static readonly JudgingTerms Laid = JudgingTerms.None with
    {
        Uncertainties = [new Uncertainty(RuleQuantity.LeftRight, Oz("0.1 oz"), Oz("0.03 oz"), Oz("0.03 oz"))],
    };

    [Theory]
    [InlineData("0.5 oz", "0.645 oz", SpreadOfReadings.Within, "+0.145 oz")]
    [InlineData("0.5 oz", "0.646 oz", SpreadOfReadings.Beyond, "+0.146 oz")]
    [InlineData("0.5 oz", "0.355 oz", SpreadOfReadings.Within, "-0.145 oz")]
    [InlineData("0.5 oz", "-0.5 oz", SpreadOfReadings.Beyond, "-1 oz")]
    public void Between_Differences_AreHeldAgainstTheSpread(string then, string now, SpreadOfReadings spread, string difference)
    {
        var change = Assert.Single(SheetChanges.Between(Weighed(then), Weighed(now), Laid));

        Assert.Equal(("Left or right", difference, spread), (change.Label, change.Difference, change.Spread));
        Assert.Equal("0.1451 oz", change.Allowed);
    }

    [Fact]
    public void Between_NoUncertainty_SaysThatNoneIsLaidDown()
    {
        var change = Assert.Single(SheetChanges.Between(Weighed("-1/4 oz"), Weighed("1/4 oz"), JudgingTerms.None));

        Assert.Equal(("1/4 oz left", "1/4 oz right", "+1/2 oz"), (change.Before, change.Now, change.Difference));
        Assert.Equal((SpreadOfReadings.NotStated, null), (change.Spread, change.Allowed));
    }

    [Fact]
    public void Between_SameReadingInAnotherUnit_IsNoChange() =>
        Assert.Empty(SheetChanges.Between(Weighed("1/2 oz"), Weighed("14.1747615625 g"), Laid));

    [Fact]
    public void Between_MeasuredOnlyOnce_SaysWhichSideIsMissing()
    {
        var change = Assert.Single(
            SheetChanges.Between(Weighed("1/2 oz"), Read("""{ "play": "2027-03-14", "authority": "us-national" }"""), Laid));

        Assert.Equal(("1/2 oz right", null, null, null), (change.Before, change.Now, change.Difference, change.Spread));
    }

    [Fact]
    public void Between_Pieces_AreComparedOneByOne()
    {
        var then = Read(
            """{ "play": "2027-03-14", "authority": "us-national", "holes": [ { "kind": "grip", "digit": "thumb", "pieces": [ { "diameter": "1 in", "depth": "2 in" } ] } ] }""");
        var now = Read(
            """{ "play": "2027-03-14", "authority": "us-national", "holes": [ { "kind": "grip", "digit": "thumb", "pieces": [ { "diameter": "1 in", "depth": "2 1/4 in" }, { "diameter": "31/32 in" } ] } ] }""");

        var changes = SheetChanges.Between(then, now, JudgingTerms.None);

        Assert.Equal([("Thumb, piece 1 depth", "2 in", "2 1/4 in", "+1/4 in"), ("Thumb, piece 2 diameter", null, "31/32 in", null)],
            changes.Select(change => (change.Label, change.Before, change.Now, change.Difference)));
    }

    [Fact]
    public void Between_Holes_AreFoundByWhatTheyAreAndNotByTheirPlaceInTheList()
    {
        var then = Read(
            """{ "play": "2027-03-14", "authority": "us-national", "holes": [ { "kind": "grip", "digit": "thumb", "diameter": "31/32 in", "depth": "2 3/4 in" }, { "kind": "grip", "digit": "middle", "diameter": "7/8 in" } ] }""");
        var now = Read(
            """{ "play": "2027-03-14", "authority": "us-national", "holes": [ { "kind": "grip", "digit": "middle", "diameter": "7/8 in" }, { "kind": "mill", "diameter": "5/8 in", "depth": "1/8 in" }, { "kind": "grip", "digit": "thumb", "diameter": "31/32 in", "depth": "3 in" } ] }""");

        var changes = SheetChanges.Between(then, now, Laid);

        Assert.Equal(["Thumb depth", "Mill hole"], changes.Select(change => change.Label));
        Assert.Equal(["+1/4 in", null], changes.Select(change => change.Difference));
        Assert.Equal((null, "5/8 in wide, 1/8 in deep"), (changes[1].Before, changes[1].Now));
    }

    // An average of n readings has the repeatability of one over sqrt n (JCGM 100:2008): u = 3/sqrt 3 = 1.732051, 2 sqrt2 u = 4.898979.
    [Theory]
    [InlineData("80", SpreadOfReadings.Within)]
    [InlineData("81", SpreadOfReadings.Beyond)]
    public void Between_Averages_HaveASmallerSpread(string now, SpreadOfReadings spread)
    {
        var laid = JudgingTerms.None with
        {
            Uncertainties = [new Uncertainty(RuleQuantity.Hardness, null, ReadingParser.Parse("3", Quantity.Hardness).Reading, null)],
        };

        var change = Assert.Single(SheetChanges.Between(Hard("75.2", "75.2", "75.2"), Hard(now, now, now), laid));

        Assert.Equal((spread, "4.899"), (change.Spread, change.Allowed?.Trim()));
    }

    private static Reading Oz(string text) => ReadingParser.Parse(text, Quantity.Imbalance).Reading!;

    private static Sheet Weighed(string leftRight) =>
        Read(
            new JsonObject
            {
                ["play"] = "2027-03-14",
                ["authority"] = "us-national",
                ["weights"] = new JsonObject { ["leftRight"] = leftRight },
            }.ToJsonString());

    private static Sheet Hard(params string[] readings) => Read(new JsonObject
    {
        ["play"] = "2027-03-14",
        ["authority"] = "us-national",
        ["hardness"] = new JsonObject { ["readings"] = new JsonArray([.. readings.Select(reading => JsonValue.Create(reading))]) },
    }.ToJsonString());

    private static Sheet Read(string json)
    {
        var faults = new List<Fault>();
        return SheetReader.Read(Encoding.UTF8.GetBytes(json), faults) ?? throw new InvalidOperationException(faults[0].Message);
    }
}
