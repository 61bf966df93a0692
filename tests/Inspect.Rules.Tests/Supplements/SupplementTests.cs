using CsCheck;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Tests.Supplements;

/// <summary>What an event adds: shapes published for events of this sport, filled with an invented event's figures.</summary>
public class SupplementTests
{
    [Fact]
    public void Under_LegalBall_PassesEditionAndSupplement()
    {
        var verdict = Lantern.Judged("{}");

        Assert.Equal(Outcome.Pass, verdict.Outcome);
        Assert.Equal(("lantern-open", new DateOnly(2026, 11, 1), Lantern.Supplement.Sha256), (
            verdict.Supplements[0].Id, verdict.Supplements[0].Version, verdict.Supplements[0].Sha256));
        var first = verdict.Findings.ToList().FindIndex(finding => finding.Supplement is not null);
        Assert.All(verdict.Findings.Skip(first), finding => Assert.Equal(
            ("lantern-open", "Rules of the Lantern Open, 1 November 2026"), (finding.Supplement, finding.Reference.Title)));
        Assert.Equal(Judge.Under(Lantern.Edition, Lantern.Sheet()).Findings, verdict.Findings.Take(first));
    }

    /// <summary>72 less 4 for the spread between calibrated durometers: USBC, hardness field testing, February 2020
    /// (reprinted by an association).</summary>
    [Theory]
    [InlineData("68", "68", "68", Outcome.Pass, "0")]
    [InlineData("67", "68", "69", Outcome.Pass, "0")]
    [InlineData("67.99", "68", "68", Outcome.Fail, "-0.0033")]
    [InlineData("71", "71", "71", Outcome.Pass, "3")]
    public void Under_SeventyTwoLessFour_FailsAnAverageUnderSixtyEight(string one, string two, string three, Outcome outcome, string margin)
    {
        var finding = Finding(Lantern.Judged($$"""{ "hardness.readings": ["{{one}}", "{{two}}", "{{three}}"] }"""), "hardness");

        Assert.Equal((outcome, "at least 72 less 4 for spread between instruments", margin), (
            finding.Outcome, finding.Limit?.ToString(), finding.Margin?.ToString()));
    }

    /// <summary>Of the class of oil absorption over 90 minutes with a high-performance core none made before 1 August 2022;
    /// what a durometer reads at the table decides nothing there, for 78 is what a model is made at: USBC, new national
    /// tournament rules, September 2025.</summary>
    [Theory]
    [InlineData("91 min", true, "2022-07-31", Outcome.Fail)]
    [InlineData("91 min", true, "2022-08-01", Outcome.Pass)]
    [InlineData("90 min", true, "2022-07-31", null)]
    [InlineData("91 min", false, "2022-07-31", null)]
    public void Under_SlowClass_IsHeldToItsDayOfMaking(string absorption, bool core, string made, Outcome? outcome)
    {
        var verdict = Lantern.Judged($$"""
            { "ball.oilAbsorption": "{{absorption}}", "ball.highPerformanceCore": {{(core ? "true" : "false")}}, "ball.made": "{{made}}", "hardness.readings": ["75"] }
            """);

        Assert.Equal(outcome, verdict.Findings.SingleOrDefault(
            finding => finding.Rule == "made-since" && finding.Limit?.ToString() == "not before 2022-08-01")?.Outcome);
        Assert.DoesNotContain(verdict.Findings, finding => finding is { Rule: "hardness", Outcome: Outcome.Fail });
    }

    /// <summary>No published edition limits roughness; 1 µin is 0.0254 µm, exactly.</summary>
    [Theory]
    [InlineData("18 µin", "22 µin", "20 µin", Outcome.Pass, "20 µin")]
    [InlineData("20 µin", "20.1 µin", "20 µin", Outcome.Fail, "20.05 µin")]
    [InlineData("0.508 um", "20 uin", "20 µin", Outcome.Pass, "0.508 µm")]
    [InlineData("18 µin", "19 µin", "18.5 µin", Outcome.Pass, "18.5 µin")]
    [InlineData("18 µin", "19 µin", "18.499999 µin", Outcome.Fail, "18.5 µin")]
    // 19.685 µin are 0.499999 µm.
    [InlineData("0.5 µm", "0.5 µm", "19.685 µin", Outcome.Fail, "0.5 µm")]
    [InlineData("0.499999 µm", "0.499999 µm", "19.685 µin", Outcome.Pass, "0.499999 µm")]
    [InlineData("19.685 µin", "19.685 µin", "0.499999 µm", Outcome.Pass, "19.685 µin")]
    public void Under_LimitOfRoughness_JudgesTheAverage(string one, string other, string limit, Outcome outcome, string measured)
    {
        var smooth = Lantern.Of(
            $$"""{"rule":"roughness","kind":"limit","quantity":"surfaceRoughness","statistic":"average","atMost":"{{limit}}"}""");
        var terms = new JudgingTerms { Supplements = [smooth] };

        var finding = Finding(Lantern.Judged($$"""{ "surface": { "roughness": ["{{one}}", "{{other}}"] } }""", terms), "roughness");
        var missing = Finding(Lantern.Judged("{}", terms), "roughness");

        Assert.Equal((outcome, measured, "surface.roughness"), (finding.Outcome, finding.Measured?.ToString(), finding.Path));
        Assert.Equal("Not decided: the roughness of the surface was not read.", missing.Reason);
    }

    [Fact]
    public void Under_SlowClassNotKnown_Holds() =>
        Assert.Contains(Lantern.Judged("""{ "ball.oilAbsorption": null }""").Findings,
            finding => finding is { Rule: "made-since", Cause: HoldCause.NotMeasured, Path: "ball.oilAbsorption" });

    [Theory]
    [InlineData("91 min", Outcome.Fail)]
    [InlineData("90 min", null)]
    public void Under_BarredClass_FailsWholeClass(string absorption, Outcome? outcome)
    {
        var barred = Lantern.Of("""
            {"rule":"slow-class","kind":"forbidden","fact":"highPerformanceCore","when":{"oilAbsorption":{"over":"90 min"}},"answers":["yes","no"]}
            """);
        var verdict = Lantern.Judged($$"""{ "ball.oilAbsorption": "{{absorption}}" }""", new JudgingTerms { Supplements = [barred] });

        Assert.Equal(outcome, verdict.Findings.SingleOrDefault(finding => finding.Rule == "slow-class")?.Outcome);
    }

    [Theory]
    [InlineData("{ \"ball.made\": \"1999\" }", "made-since", Outcome.Fail)]
    [InlineData("{ \"ball.made\": \"2000-01-01\" }", "made-since", Outcome.Pass)]
    [InlineData("{ \"circumstances.ballNumber\": 6 }", "ball-count", Outcome.Pass)]
    [InlineData("{ \"circumstances.ballNumber\": 7 }", "ball-count", Outcome.Fail)]
    [InlineData("{ \"circumstances.ballNumber\": null }", "ball-count", Outcome.Hold)]
    [InlineData("{ \"circumstances.playBegan\": true }", "added-ball", Outcome.Fail)]
    [InlineData("{ \"circumstances.frozen\": true }", "freeze", Outcome.Fail)]
    [InlineData("{ \"circumstances\": null }", "freeze", Outcome.Hold)]
    [InlineData("{ \"ball.maker\": \"MOWENWERK\", \"ball.model\": \"tide  runner\" }", "barred-models", Outcome.Fail)]
    [InlineData("{ \"ball.maker\": \"Möwenwerk\", \"ball.model\": \"Tide Runner 2\" }", "barred-models", Outcome.Pass)]
    [InlineData("{ \"ball.maker\": \"Möwenwerk\", \"ball.model\": null }", "barred-models", Outcome.Hold)]
    public void Under_EventRule_DecidesWithEverythingElseLegal(string change, string rule, Outcome outcome)
    {
        var verdict = Lantern.Judged(change);

        Assert.Equal(outcome, Finding(verdict, rule).Outcome);
        Assert.Equal(outcome, verdict.Outcome);
    }

    [Fact]
    public void Under_ModelOfAnotherMaker_IsNotAsked() =>
        Assert.DoesNotContain(Lantern.Judged("""{ "ball.model": "Tide Runner" }""").Findings, finding => finding.Rule == "barred-models");

    /// <summary>"Serial begins with 6 or 7" is a bar published for national events.</summary>
    [Fact]
    public void Under_SerialsBeginningWithSixOrSeven_FailsExactlyThose() =>
        Gen.Char["0123456789ABCDEFGHJKLMNPQRSTUVWXYZ"].Array[1, 10].Select(signs => new string(signs)).Sample(
            serial =>
            {
                var finding = Finding(Lantern.Judged($$"""{ "ball.serial": "{{serial}}" }"""), "barred-serials");
                var barred = serial[0] is '6' or '7';
                Assert.Equal((barred ? Outcome.Fail : Outcome.Pass, serial, "ball.serial"), (
                    finding.Outcome, finding.Measured?.ToString(), finding.Path));
                Assert.Equal(barred ? $"The serial {serial} begins with \"{serial[0]}\" and so falls under \"{serial[0]}*\", which is "
                    + "barred at this event."
                    : $"The serial {serial} is not barred at this event.", finding.Reason);
            },
            iter: 300);

    [Theory]
    [InlineData("made before the list", "1985", Outcome.Fail)]
    [InlineData("made after it began", "1995", Outcome.Fail)]
    public void Under_DecisionToBar_FailsWhatTheEditionLeavesToTheDirector(string why, string made, Outcome outcome)
    {
        Assert.NotEmpty(why);
        var finding = Finding(Lantern.Judged($$"""{ "ball.listed": "no", "ball.made": "{{made}}" }"""), "approved-list");

        Assert.Equal(outcome, finding.Outcome);
        Assert.Equal(made == "1985" ? "lantern-open" : null, finding.Supplement);
    }

    [Fact]
    public void Under_DecisionToAllow_PassesAndBarGoesBeforeAllow()
    {
        var allow = Lantern.Of("", """, "decides":[{"rule":"approved-list","discretion":"allow","source":"s"}]""");
        const string Old = """{ "ball.listed": "no", "ball.made": "1985" }""";

        var allowed = Finding(Lantern.Judged(Old, new JudgingTerms { Supplements = [allow] }), "approved-list");
        Assert.Equal(
            (Outcome.Pass, "small", "Small rules", null), (allowed.Outcome, allowed.Supplement, allowed.Reference.Title, allowed.Cause));
        Assert.Equal(Outcome.Fail, Finding(
            Lantern.Judged(Old, new JudgingTerms { Supplements = [allow, Lantern.Supplement] }), "approved-list").Outcome);
    }

    [Fact]
    public void Under_Plan_NamesSupplementRulesLikeAnyOther()
    {
        var verdict = Lantern.Judged("""{ "plan": ["gross-weight", "freeze"] }""");

        Assert.Equal(["gross-weight", "freeze"], verdict.Findings.Select(finding => finding.Rule));
        Assert.Contains("barred-serials", verdict.NotChecked);
        Assert.Contains("left-right", verdict.NotChecked);
    }

    private static Finding Finding(Verdict verdict, string rule) => verdict.Findings.First(finding => finding.Rule == rule);
}
