using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Rules.Judging;
using Inspect.Rules.Tests.Rulesets;
using Inspect.Rules.Tests.Supplements;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Tests.NearLimits;

/// <summary>What is known from memory decides only once a director has confirmed it; defined by this project.</summary>
public class ConfirmationTests
{
    private const string Terms = """
        {"confirmations":[
        {"rule":"left-right","limit":"at most 3/4 oz","by":"p-17","on":"2026-11-20","document":"Letter of the rules committee, 3 November 2026"},
        {"rule":"any-halves","by":"p-17","on":"2026-11-20","document":"Letter of the rules committee, 3 November 2026","given":{"quantity":"anyHalves","atMost":"3 oz"}}]}
        """;

    [Theory]
    [InlineData("3/4 oz", Outcome.Pass)]
    [InlineData("0.76 oz", Outcome.Fail)]
    public void Under_ConfirmedLimit_DecidesAndSaysWhoConfirmedIt(string side, Outcome outcome)
    {
        var change = $$"""{ "weights.gross": "9 lb", "weights.leftRight": "{{side}}" }""";

        Assert.Equal(HoldCause.LimitUnconfirmed, Finding(Lantern.Judged(change, JudgingTerms.None), "left-right").Cause);
        var verdict = Lantern.Judged(change, Read(Terms));
        var finding = Finding(verdict, "left-right");
        Assert.Equal((outcome, "p-17", new DateOnly(2026, 11, 20), "at most 3/4 oz"), (
            finding.Outcome, finding.Confirmed!.By, finding.Confirmed.On, finding.Limit!.ToString()));
        Assert.Equal(HoldCause.LimitUnconfirmed, Finding(verdict, "finger-thumb").Cause);
        var written = VerdictJson.Write(verdict);
        var read = VerdictReader.Read(JsonSerializer.SerializeToElement(written), VerdictJson.WordsOnly);
        Assert.Equal(written.ToJsonString(), VerdictJson.Write(read).ToJsonString());
    }

    /// <summary>What earlier versions recorded stays as it was worded then, so that it replays to the same bytes.</summary>
    [Theory]
    [InlineData(VerdictJson.WithNumbers, "is known from memory only;")]
    [InlineData(VerdictJson.Latest, "is not yet confirmed from the rule book;")]
    public void Recorded_LimitThatNobodyConfirmed_SaysSoInTheWordsOfItsVersion(int version, string words)
    {
        var verdict = Lantern.Judged("""{ "weights.gross": "9 lb" }""", JudgingTerms.None);

        var recorded = VerdictJson.Recorded(verdict, version)["findings"]!.AsArray().First(each => (string?)each!["rule"] == "left-right")!;

        Assert.Contains(words, (string?)recorded["reason"]!, StringComparison.Ordinal);
        Assert.Contains("rule book", Finding(verdict, "left-right").Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2.9 oz", Outcome.Pass)]
    [InlineData("3.1 oz", Outcome.Fail)]
    public void Under_LimitTheEditionDidNotFind_IsTheOneGiven(string halves, Outcome outcome)
    {
        var sheet = Lantern.Sheet($$"""{ "play": "2019-03-01", "holes": [], "weights.anyHalves": "{{halves}}" }""");
        var edition = Book.Find("us-national/2018-08-01");

        Assert.Equal((HoldCause.LimitUnconfirmed, null), (
            Finding(Judge.Under(edition, sheet), "any-halves").Cause, Finding(Judge.Under(edition, sheet), "any-halves").Limit));
        var finding = Finding(Judge.Under(edition, sheet, Read(Terms)), "any-halves");
        Assert.Equal((outcome, "at most 3 oz", "p-17"), (finding.Outcome, finding.Limit!.ToString(), finding.Confirmed?.By));
    }

    [Fact]
    public void Write_Terms_IsTheDocumentThatWasRead()
    {
        var full = JsonNode.Parse(Terms)!.AsObject();
        var written = new JsonObject
        {
            ["decision"] = "guarded-acceptance",
            ["guardFactor"] = "1.645",
            ["uncertainties"] = JsonNode.Parse(
                """[{"quantity":"leftRight","resolution":"0.1 oz","repeatability":"0.03 oz"},{"quantity":"hardness","betweenOperators":"1.5"}]"""),
            ["confirmations"] = full["confirmations"]!.DeepClone(),
        };
        Assert.Equal(written.ToJsonString(), TermsJson.Write(Read(written.ToJsonString())).ToJsonString());
        Assert.Equal("{}", TermsJson.Write(Read("{}")).ToJsonString());
    }

    [Theory]
    [InlineData("""{"decision":"guarded-acceptance"}""", "guardFactor")]
    [InlineData("""{"decision":"guarded-acceptance","guardFactor":"11"}""", "guardFactor")]
    [InlineData("""{"decision":"guarded-acceptance","guardFactor":"2e0"}""", "guardFactor")]
    [InlineData("""{"guardFactor":"2"}""", "guardFactor")]
    [InlineData("""{"decision":"coin"}""", "decision")]
    [InlineData("""{"uncertainties":[{"quantity":"made"}]}""", "uncertainties[0].quantity")]
    [InlineData("""{"uncertainties":[{"quantity":"leftRight","resolution":"-0.1 oz"}]}""", "uncertainties[0].resolution")]
    [InlineData("""{"uncertainties":[{"quantity":"gross"},{"quantity":"gross"}]}""", "uncertainties[1].quantity")]
    [InlineData("""{"confirmations":[{"rule":"left-right","by":"p","on":"2026-11-20"}]}""", "confirmations[0].document")]
    [InlineData(
        """{"confirmations":[{"rule":"r","limit":"at most 1 oz","by":"p","on":"2026-11-20","document":"d","given":{"quantity":"gross","atMost":"16 lb"}}]}""",
        "confirmations[0].given")]
    [InlineData(
        """{"confirmations":[{"rule":"r","by":"p","on":"2026-11-20","document":"d","given":{"quantity":"gross"}}]}""",
        "confirmations[0].given.quantity")]
    [InlineData("""{"supplements":[]}""", "supplements")]
    public void Read_TermsWithAFault_NamesItsPath(string json, string path)
    {
        var faults = new List<Fault>();
        Assert.Null(TermsReader.Read(Encoding.UTF8.GetBytes(json), faults));
        Assert.Equal(path, Assert.Single(faults).Path);
    }

    private static JudgingTerms Read(string json)
    {
        var faults = new List<Fault>();
        var terms = TermsReader.Read(Encoding.UTF8.GetBytes(json), faults);
        Assert.Empty(faults);
        return terms!;
    }

    private static Finding Finding(Verdict verdict, string rule) => verdict.Findings.Single(finding => finding.Rule == rule);
}
