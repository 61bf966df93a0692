using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using static Inspect.Rules.Tests.Judging.SmallEdition;

namespace Inspect.Rules.Tests.Judging;

/// <summary>How rules become a verdict, defined by this project; the rules and figures here are invented.</summary>
public class JudgeTests
{
    private const string Gross = """{"rule":"gross-weight","kind":"limit","quantity":"gross","atMost":"16 lb"}""";
    private const string Side = """{"rule":"left-right","kind":"limit","quantity":"leftRight","atMost":"3 oz"}""";
    private const string Soft = """{"rule":"hardness","kind":"limit","quantity":"hardness","statistic":"average","atLeast":"72"}""";
    private const string EachDiameter =
        """{"rule":"diameter","kind":"limit","quantity":"diameters","statistic":"each","over":"8.5 in","atMost":"8.595 in"}""";
    private const string Depth =
        """{"rule":"grip-hole-depth","kind":"limit","quantity":"holeDepth","holes":["grip"],"atMost":"4 1/2 in"}""";

    [Theory]
    [InlineData("16 lb", Outcome.Pass, "0 lb")]
    [InlineData("15 lb 1 1/2 oz", Outcome.Pass, "14 1/2 oz")]
    [InlineData("15 lb 1.5 oz", Outcome.Pass, "14.5 oz")]
    [InlineData("16 lb 0.1 oz", Outcome.Fail, "-0.1 oz")]
    [InlineData("7257.47793 g", Outcome.Fail, "-0.00001 g")]
    [InlineData("7257.47792 g", Outcome.Pass, "0 g")]
    public void Under_ReadingBesideALimit_HasAMarginInItsOwnNotation(string gross, Outcome outcome, string margin)
    {
        var finding = Assert.Single(Judged(Gross, $$"""  "weights":{"gross":"{{gross}}"}  """).Findings);
        Assert.Equal((outcome, gross, "at most 16 lb", margin, "weights.gross"), (
            finding.Outcome, finding.Measured!.ToString(), finding.Limit!.ToString(), finding.Margin!.ToString(), finding.Path));
    }

    /// <summary>A whole number is written in no notation of its own: its margin is a fraction where the limit is one.</summary>
    [Theory]
    [InlineData("2 in", "2 1/2 in", "")]
    [InlineData("5 in", "-1/2 in", "1/2 in")]
    [InlineData("2.0 in", "2.5 in", "")]
    [InlineData("5.0 in", "-0.5 in", "0.5 in")]
    [InlineData("2 1/4 in", "2 1/4 in", "")]
    [InlineData("50 mm", "64.3 mm", "")]
    public void Under_WholeNumberBesideAFraction_HasItsMarginInTheNotationOfTheLimit(string depth, string margin, string excess)
    {
        var edition = Of(Depth);
        var rule = edition.Rules[0] with { Sentences = new Sentences("", "{excess}") };
        var finding = Assert.Single(Judge.Under(
            edition with { Rules = [rule] }, Sheet($$"""  "holes":[{"kind":"grip","digit":"thumb","depth":"{{depth}}"}]  """)).Findings);
        Assert.Equal((margin, excess), (finding.Margin!.ToString(), finding.Reason));
    }

    [Theory]
    [InlineData("-3.25 oz", Outcome.Fail, "-0.25 oz")]
    [InlineData("-3 oz", Outcome.Pass, "0 oz")]
    [InlineData("2 1/2 oz", Outcome.Pass, "1/2 oz")]
    public void Under_SignedReading_IsComparedBySize(string side, Outcome outcome, string margin)
    {
        var finding = Assert.Single(Judged(Side, $$"""  "weights":{"leftRight":"{{side}}"}  """).Findings);
        Assert.Equal((outcome, side, margin), (finding.Outcome, finding.Measured!.ToString(), finding.Margin!.ToString()));
    }

    [Theory]
    [InlineData("\"71.99999\",\"72\",\"72\"", Outcome.Fail, "71.999997")]
    [InlineData("\"71\",\"72\",\"73\"", Outcome.Pass, "72")]
    [InlineData("\"74\",\"75\",\"75\"", Outcome.Pass, "74.6667")]
    public void Under_Average_IsComparedAsASumAndReadsOnItsOwnSide(string readings, Outcome outcome, string measured)
    {
        var finding = Assert.Single(Judged(Soft, $$"""  "hardness":{"readings":[{{readings}}]}  """).Findings);
        Assert.Equal((outcome, measured), (finding.Outcome, finding.Measured!.ToString()));
    }

    [Theory]
    [InlineData("\"8.59 in\",\"8.6 in\",\"8.55 in\"", Outcome.Fail, "size.diameters[1]")]
    [InlineData("\"8.595 in\",\"8.5 in\"", Outcome.Fail, "size.diameters[1]")]
    [InlineData("\"8.55 in\",\"8.595 in\"", Outcome.Pass, "size.diameters[1]")]
    public void Under_EachReading_NamesTheWorst(string diameters, Outcome outcome, string path)
    {
        var finding = Assert.Single(Judged(EachDiameter, $$"""  "size":{"diameters":[{{diameters}}]}  """).Findings);
        Assert.Equal((outcome, path), (finding.Outcome, finding.Path));
    }

    [Fact]
    public void Under_Holes_GivesAFindingForEachAndNamesWhatIsMissing()
    {
        var findings = Judged(
            Depth,
            """  "holes":[{"kind":"mill"},{"kind":"grip","digit":"thumb","depth":"2 3/4 in"},{"kind":"grip","digit":"ring"}]  """).Findings;
        Assert.Equal(["holes[1].depth", "holes[2].depth"], findings.Select(finding => finding.Path));
        Assert.Equal(["thumb", "ring"], findings.Select(finding => finding.Subject));
        Assert.Equal(
            ("1 3/4 in", Outcome.Hold, HoldCause.NotMeasured), (findings[0].Margin!.ToString(), findings[1].Outcome, findings[1].Cause));
    }

    [Theory]
    [InlineData("", Outcome.Hold, "weights.leftRight")]
    [InlineData("\"marks\":{\"serialReadable\":true}", Outcome.Hold, "weights.leftRight")]
    public void Under_NothingMeasured_HoldsWithThePathOfWhatIsMissing(string members, Outcome outcome, string path)
    {
        var finding = Assert.Single(Judged(Side, members).Findings);
        Assert.Equal((outcome, HoldCause.NotMeasured, path), (finding.Outcome, finding.Cause!.Value, finding.Path));
    }

    [Theory]
    [InlineData("", null, "holes")]
    [InlineData("\"marks\":{\"serialReadable\":false}", "none", null)]
    [InlineData("\"holes\":[]", "none", null)]
    [InlineData("\"holes\":[{\"kind\":\"mill\"}]", null, "marks.serialReadable")]
    public void Under_ConditionOfTwoClauses_OneNoDecidesAndOneUnknownHolds(string members, string? none, string? missing)
    {
        var rule = Side.Replace(
            "}", ",\"cases\":[{\"when\":{\"drilled\":true,\"serialReadable\":true},\"atMost\":\"3 oz\"}]}", StringComparison.Ordinal)
            .Replace(",\"atMost\":\"3 oz\",\"cases\"", ",\"cases\"", StringComparison.Ordinal);
        var findings = Judged(rule, members).Findings;
        Assert.Equal(none is not null, findings.Count == 0);
        Assert.Equal(missing, findings.SingleOrDefault()?.Path);
    }

    [Fact]
    public void Under_LimitKnownFromMemory_NeverDecides()
    {
        foreach (var (rule, members) in new[]
        {
            (Gross, """ "weights":{"gross":"20 lb"} """),
            ("""{"rule":"made-since","kind":"limit","quantity":"made","notBefore":"1991-01-01"}""", """ "ball":{"made":"1980"} """),
            ("""{"rule":"palm-mark","kind":"count","counts":"palmMarks","atMost":0}""", """ "marks":{"palmMarks":1} """),
            ("""{"rule":"approved-list","kind":"listed"}""", """ "ball":{"listed":"no"} """),
        })
        {
            var finding = Assert.Single(
                Judged(rule.Replace("\"kind\"", "\"basis\":\"memory\",\"kind\"", StringComparison.Ordinal), members).Findings);
            Assert.Equal((Outcome.Hold, HoldCause.LimitUnconfirmed), (finding.Outcome, finding.Cause!.Value));
        }
    }

    [Fact]
    public void Under_RuleThatCannotBeWorkedOut_Holds()
    {
        var edition = Of("""{"rule":"model-name","kind":"required","fact":"modelReadable","answers":["a","b"]}""");
        var impossible = (Rule.Stated)edition.Rules[0] with { Fact = Fact.Listed };
        var verdict = Judge.Under(edition with { Rules = [impossible] }, Sheet(""" "ball":{"listed":"yes"} """));
        var finding = Assert.Single(verdict.Findings);
        Assert.Equal((Outcome.Hold, HoldCause.RuleError), (finding.Outcome, finding.Cause!.Value));
        var error = Assert.Single(verdict.RuleErrors);
        Assert.Equal(("model-name", edition.Id), (error.Rule, error.Source));
        Assert.DoesNotContain(error.Error.Message, VerdictJson.Write(verdict).ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Under_Plan_ChecksItsRulesInTheEditionsOrderAndListsTheRest()
    {
        var verdict = Judged(
            $"{Gross},{Side},{Soft}",
            """ "plan":["hardness","gross-weight"],"weights":{"gross":"15 lb"},"hardness":{"readings":["74"]} """);
        Assert.Equal(["gross-weight", "hardness"], verdict.Findings.Select(finding => finding.Rule));
        Assert.Equal(["left-right"], verdict.NotChecked);
        Assert.Equal(Outcome.Pass, verdict.Outcome);
    }

    [Fact]
    public void Under_NoRuleThatApplies_IsAHold()
    {
        var verdict = Judged(Depth, "\"holes\":[]");
        Assert.Empty(verdict.Findings);
        Assert.Equal(Outcome.Hold, verdict.Outcome);
        Assert.Null(verdict.Cause);
    }

    [Theory]
    [InlineData("17 lb", null, Outcome.Fail)]
    [InlineData("15 lb", null, Outcome.Hold)]
    [InlineData("15 lb", "1 oz", Outcome.Pass)]
    public void Under_SeveralRules_AnyFailFailsElseAnyHoldHolds(string gross, string? side, Outcome outcome)
    {
        var leftRight = side is null ? "" : $",\"leftRight\":\"{side}\"";
        Assert.Equal(outcome, Judged($"{Side},{Gross}", $$"""  "weights":{"gross":"{{gross}}"{{leftRight}}}  """).Outcome);
    }

    [Fact]
    public void WithoutEdition_IsAHoldWithNoEdition() =>
        Assert.Equal((Outcome.Hold, HoldCause.NoEdition, 0), (
            Judge.WithoutEdition().Outcome, Judge.WithoutEdition().Cause!.Value, Judge.WithoutEdition().Findings.Count));
}
