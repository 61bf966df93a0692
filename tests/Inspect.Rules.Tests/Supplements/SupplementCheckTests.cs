using Inspect.Rules.Rulesets;
using Inspect.Rules.Tests.Rulesets;

namespace Inspect.Rules.Tests.Supplements;

/// <summary>A supplement may tighten an edition and decide what that leaves to the director; which is
/// which is defined by this project.</summary>
public class SupplementCheckTests
{
    [Fact]
    public void Against_SupplementThatTightens_FindsNothing() => Assert.Empty(SupplementCheck.Against(Lantern.Edition, Lantern.Supplement));

    [Theory]
    [InlineData(
        """{"rule":"left-right","kind":"limit","quantity":"leftRight","when":{"gross":{"over":"10 lb"}},"atMost":"3.01 oz"}""",
        "at most 3 oz", "at most 3.01 oz")]
    [InlineData("""{"rule":"left-right","kind":"limit","quantity":"leftRight","atMost":"2 oz"}""", "at most 3/4 oz", "at most 2 oz")]
    [InlineData(
        """{"rule":"side","kind":"limit","quantity":"leftRight","when":{"gross":{"over":"10 lb"}},"atMost":"4 oz"}""", "at most 3 oz",
        "at most 4 oz")]
    [InlineData("""{"rule":"left-right","kind":"limit","quantity":"leftRight","when":{"gross":{"over":"10 lb"}},"atMost":"3 oz","allowance":"0.1 oz"}""",
        "at most 3 oz", "at most 3 oz plus 0.1 oz for spread between instruments")]
    [InlineData(
        """{"rule":"diameter","kind":"limit","quantity":"diameters","statistic":"each","atLeast":"8.49 in"}""", "8.500 in to 8.595 in",
        "at least 8.49 in")]
    [InlineData(
        """{"rule":"grip-hole-count","kind":"count","counts":"holes","holes":["grip","indentation"],"atMost":6}""", "at most 5",
        "at most 6")]
    [InlineData("""{"rule":"balance-hole","kind":"count","counts":"holes","holes":["balance"],"atMost":1}""", "none", "at most 1")]
    [InlineData("""{"rule":"palm-mark","kind":"count","counts":"palmMarks","atMost":2}""", "exactly 1", "at most 2")]
    [InlineData(
        """{"rule":"surface-pattern","kind":"required","fact":"surfacePattern","answers":["grooved","plain"]}""", "none found", "grooved")]
    [InlineData(
        """{"rule":"grip-hole-use","kind":"forbidden","fact":"digitUsed","holes":["grip"],"answers":["used","not used"]}""", "used",
        "not used")]
    [InlineData(
        """{"rule":"approved-list","kind":"listed","alsoApproved":{"made":{"before":"1991-01-01"}}}""", "the director decides",
        "approved besides")]
    [InlineData(
        """{"rule":"approved-list","kind":"listed","discretion":{"made":{"before":"2000-01-01"}}}""", "listed", "the director decides")]
    [InlineData("""{"rule":"approved-list","kind":"listed","unless":{"drilled":true}}""", "listed", "no list for these balls")]
    public void Against_RuleThatLoosens_IsRefusedWithTheRuleAndBothLimits(string rule, string edition, string supplement)
    {
        var loosening = Assert.Single(SupplementCheck.Against(Lantern.Edition, Lantern.Of(rule)).DistinctBy(one => one.Rule));

        Assert.Equal((edition, supplement), (loosening.EditionLimit, loosening.SupplementLimit));
        Assert.All(new[] { $"\"{loosening.Rule}\"", $"\"{edition}\"", $"\"{supplement}\"", Lantern.Edition.Id, "\"small\"" },
            part => Assert.Contains(part, loosening.Message, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("""{"rule":"left-right","kind":"limit","quantity":"leftRight","when":{"gross":{"over":"10 lb"}},"atMost":"3 oz"}""")]
    [InlineData(
        """{"rule":"left-right","kind":"limit","quantity":"leftRight","cases":[{"when":{"gross":{"over":"12 lb"}},"atMost":"1 oz"},{"atMost":"1/2 oz"}]}""")]
    [InlineData("""{"rule":"left-right","kind":"limit","quantity":"leftRight","atMost":"3/4 oz"}""")]
    [InlineData("""{"rule":"diameter","kind":"limit","quantity":"diameters","statistic":"each","atLeast":"8.52 in"}""")]
    [InlineData("""{"rule":"vent-width","kind":"limit","quantity":"holeDiameter","holes":["vent"],"atMost":"3/16 in"}""")]
    [InlineData("""{"rule":"grip-hole-count","kind":"count","counts":"holes","holes":["grip","indentation"],"atMost":3}""")]
    [InlineData("""{"rule":"approved-list","kind":"listed","when":{"made":{"before":"1991-01-01"}}}""")]
    [InlineData("""{"rule":"approved-list","kind":"listed","unless":{"houseBall":true}}""")]
    public void Against_RuleThatTightensOrRepeats_FindsNothing(string rule) =>
        Assert.Empty(SupplementCheck.Against(Lantern.Edition, Lantern.Of(rule)));

    /// <summary>The edition of 2014 asks for 72 itself; 72 less 4 would loosen it.</summary>
    [Fact]
    public void Against_EditionWithAHardnessOfItsOwn_RefusesTheAllowance()
    {
        var loosening = Assert.Single(
            SupplementCheck.Against(Book.Find("us-national/2014-05-07"), Lantern.Supplement),
            one => one.SupplementLimit!.Contains("less", StringComparison.Ordinal));
        Assert.Equal(("hardness", "at least 72", "at least 72 less 4 for spread between instruments"), (
            loosening.Rule, loosening.EditionLimit, loosening.SupplementLimit));
    }

    [Fact]
    public void Against_DecisionTheEditionDoesNotLeaveOpen_IsRefused()
    {
        var allow = Lantern.Of("", """, "decides":[{"rule":"approved-list","discretion":"allow","source":"s"}]""");
        var other = Lantern.Of("", """, "decides":[{"rule":"grip-hole-use","discretion":"allow","source":"s"}]""");
        var unknown = Lantern.Of("", """, "decides":[{"rule":"polish","discretion":"bar","source":"s"}]""");

        Assert.Empty(SupplementCheck.Against(Lantern.Edition, allow));
        Assert.Contains(
            "leaves nothing to the director", Assert.Single(SupplementCheck.Against(Lantern.Edition, other)).Message,
            StringComparison.Ordinal);
        Assert.Contains(
            "not a rule of us-national/2020-08-01", Assert.Single(SupplementCheck.Against(Lantern.Edition, unknown)).Message,
            StringComparison.Ordinal);
        var abroad = Book.Find("international/2025-10-14");
        Assert.Contains("cannot be used with", Assert.Single(SupplementCheck.Against(abroad, allow)).Message, StringComparison.Ordinal);
        Assert.Contains("leaves nothing to the director",
            Assert.Single(SupplementCheck.Against(abroad, allow with { Authority = "international" })).Message, StringComparison.Ordinal);
    }
}
