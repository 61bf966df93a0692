using System.Text.Json;
using CsCheck;
using Inspect.Rules.Judging;
using Inspect.Rules.Tests.Supplements;

namespace Inspect.Rules.Tests.NearLimits;

/// <summary>Simple and guarded acceptance and guarded rejection as in ILAC-G8:09/2019 and ISO 14253-1:2017; u is
/// 0.051316 oz, 2 u is 0.102633 oz.</summary>
public class DecisionRuleTests
{
    [Theory]
    [InlineData("2.80 oz", Outcome.Pass, null)]
    [InlineData("2.90 oz", Outcome.Pass, "0.974")]
    [InlineData("2.95 oz", Outcome.Pass, "0.835")]
    [InlineData("3 oz", Outcome.Pass, "0.500")]
    [InlineData("-3.05 oz", Outcome.Fail, "0.165")]
    [InlineData("3.10 oz", Outcome.Fail, "0.026")]
    [InlineData("3.16 oz", Outcome.Fail, null)]
    public void Simple_ReadingDecides_AndSaysHowSureItIs(string reading, Outcome outcome, string? conformance)
    {
        var (finding, verdict) = Side.Judged(reading);

        Assert.Equal((outcome, null, conformance), (finding.Outcome, finding.Cause, finding.Conformance));
        Assert.Equal(conformance is not null, finding.Reason.EndsWith(
            "; the reading lies near the limit, so take a second one.", StringComparison.Ordinal));
        Assert.DoesNotContain("decision", VerdictJson.Write(verdict).Select(member => member.Key));
    }

    [Theory]
    [InlineData("2.897 oz", Outcome.Pass)]
    [InlineData("2.8973 oz", Outcome.Pass)]
    [InlineData("2.8974 oz", Outcome.Hold)]
    [InlineData("-2.95 oz", Outcome.Hold)]
    [InlineData("3 oz", Outcome.Hold)]
    [InlineData("3.00001 oz", Outcome.Fail)]
    public void GuardedAcceptance_ReadingInsideTheBand_HoldsNearTheLimit(string reading, Outcome outcome)
    {
        var (finding, verdict) = Side.Judged(reading, DecisionRule.GuardedAcceptance(2));

        Assert.Equal(
            (outcome, outcome, outcome == Outcome.Hold ? HoldCause.NearLimit : null), (finding.Outcome, verdict.Outcome, finding.Cause));
        if (outcome == Outcome.Hold)
        {
            Assert.Equal($"{reading} conforms (at most 3 oz) but lies inside the guard band of 0.1026 oz before the limit; take a "
                + "second, careful reading.", finding.Reason);
        }

        var written = VerdictJson.Write(verdict);
        Assert.Equal(("guarded-acceptance", "2"), ((string)written["decision"]!, (string)written["guardFactor"]!));
    }

    [Theory]
    [InlineData("2.95 oz", Outcome.Pass, false)]
    [InlineData("3.00001 oz", Outcome.Pass, true)]
    [InlineData("-3.10 oz", Outcome.Pass, true)]
    [InlineData("3.1026 oz", Outcome.Pass, true)]
    [InlineData("3.1027 oz", Outcome.Fail, false)]
    public void GuardedRejection_ReadingBeyondByLessThanTheBand_PassesWithTheBenefitOfTheDoubt(string reading, Outcome outcome, bool doubt)
    {
        var (finding, _) = Side.Judged(reading, DecisionRule.GuardedRejection(2));

        Assert.Equal((outcome, null), (finding.Outcome, finding.Cause));
        Assert.Equal(doubt, finding.Reason.Contains("benefit of that doubt", StringComparison.Ordinal));
        Assert.Equal(doubt, finding.Margin!.Value < 0 && outcome == Outcome.Pass);
    }

    /// <summary>At 1.645 u the risk of accepting a ball that is out stays within 5 % (ILAC-G8:09/2019).</summary>
    [Theory]
    [InlineData("2.9155 oz", Outcome.Pass)]
    [InlineData("2.9157 oz", Outcome.Hold)]
    public void GuardedAcceptance_FivePercentRisk_BeginsAtItsLimit(string reading, Outcome outcome) =>
        Assert.Equal(outcome, Side.Judged(reading, DecisionRule.GuardedAcceptance(1.645m)).Finding.Outcome);

    [Fact]
    public void AnyRule_AnyReading_AcceptanceNeverPassesWhatSimpleDoesNotAndRejectionNeverFailsWhatItPasses() =>
        Gen.Decimal[2.7m, 3.3m].Select(Gen.Decimal[0.1m, 5m]).Sample(
            (ounces, factor) =>
            {
                var reading = FormattableString.Invariant($"{Math.Round(ounces, 4)} oz");
                var simple = Side.Judged(reading).Finding.Outcome;
                var accepted = Side.Judged(reading, DecisionRule.GuardedAcceptance(factor)).Finding.Outcome;
                var rejected = Side.Judged(reading, DecisionRule.GuardedRejection(factor)).Finding.Outcome;
                Assert.True(accepted == simple || (simple == Outcome.Pass && accepted == Outcome.Hold), reading);
                Assert.True(rejected == simple || (simple == Outcome.Fail && rejected == Outcome.Pass), reading);
            },
            iter: 200);

    [Fact]
    public void AnyRule_QuantityWithoutUncertainty_IsJudgedSimply()
    {
        var terms = new JudgingTerms { DecisionRule = DecisionRule.GuardedAcceptance(2) };
        Assert.Equal(Judge.Under(Lantern.Edition, Lantern.Sheet()).Findings, Judge.Under(Lantern.Edition, Lantern.Sheet(), terms).Findings);
    }

    [Theory]
    [InlineData("0")]
    [InlineData("-1")]
    [InlineData("10.1")]
    public void GuardedAcceptance_FactorOutOfRange_Throws(string factor) =>
        Assert.Throws<ArgumentOutOfRangeException>(
            () => DecisionRule.GuardedAcceptance(decimal.Parse(factor, System.Globalization.CultureInfo.InvariantCulture)));

    [Fact]
    public void Read_VerdictWithEverything_IsTheSameBytesAgain()
    {
        var terms = Lantern.Terms with { DecisionRule = DecisionRule.GuardedRejection(1.645m), Uncertainties = [Side.Uncertainty] };
        var written = VerdictJson.Write(Lantern.Judged("""{ "weights.leftRight": "3.01 oz" }""", terms));

        Assert.Equal(["outcome", "edition", "supplements", "decision", "guardFactor", "findings"], written.Select(member => member.Key));
        Assert.Contains("\"conformance\"", written.ToJsonString(), StringComparison.Ordinal);
        var read = VerdictReader.Read(JsonSerializer.SerializeToElement(written), VerdictJson.WordsOnly);
        Assert.Equal(written.ToJsonString(), VerdictJson.Write(read).ToJsonString());
    }
}
