using Inspect.Rules.Judging;
using static Inspect.Rules.Tests.Judging.SmallEdition;

namespace Inspect.Rules.Tests.Judging;

/// <summary>A ball that went through a ring gauge instead of being measured. A go gauge says only that the size is between its limits:
/// the principle of limit gauging (Taylor), from memory; the limits of the rule are those that most bodies publish.</summary>
public class RingGaugeTests
{
    private const string Around =
        """{"rule":"circumference","kind":"limit","quantity":"circumference","atLeast":"26.704 in","atMost":"27.002 in"}""";
    private const string Across =
        """{"rule":"diameter","kind":"limit","quantity":"diameters","statistic":"each","over":"8.5 in","atMost":"8.595 in"}""";
    private const string Round =
        """{"rule":"roundness","kind":"limit","quantity":"diameters","statistic":"spread","atMost":"0.010 in"}""";

    [Theory]
    [InlineData(Around, "circumferenceGauge", "26.704 to 27.002 in", Outcome.Pass)]
    [InlineData(Around, "circumferenceGauge", "26.75 to 27 in", Outcome.Pass)]
    [InlineData(Around, "circumferenceGauge", "26.703 to 27.002 in", Outcome.Hold)]
    [InlineData(Around, "circumferenceGauge", "26.704 to 27.003 in", Outcome.Hold)]
    [InlineData(Around, "circumferenceGauge", "27.1 to 27.2 in", Outcome.Hold)]
    [InlineData(Across, "diameterGauge", "8.5001 to 8.595 in", Outcome.Pass)]
    [InlineData(Across, "diameterGauge", "8.5 to 8.595 in", Outcome.Hold)]
    public void Under_BallThatGoes_PassesOnlyWhereAllThatGoesIsAllowed(string rule, string member, string gauge, Outcome outcome)
    {
        var finding = Assert.Single(Judged(rule, $$"""  "size":{"{{member}}":"{{gauge}}"}  """).Findings);

        Assert.Equal((outcome, gauge, null), (finding.Outcome, finding.Measured!.ToString(), finding.Margin));
        if (outcome == Outcome.Pass)
        {
            Assert.Equal(($"size.{member}", null), (finding.Path, finding.Cause));
            Assert.Equal($"The ball goes through the ring gauge of {gauge}; {finding.Limit} is allowed.", finding.Reason);
        }
        else
        {
            Assert.Equal((member == "diameterGauge" ? "size.diameters" : "size.circumference", HoldCause.NotMeasured), (
                finding.Path, finding.Cause));
            Assert.Equal(
                $"Not decided: the ring gauge of {gauge} lets more through than the allowed {finding.Limit}; measure it.", finding.Reason);
        }
    }

    [Fact]
    public void Under_BallMeasuredToo_IsJudgedByTheFigure()
    {
        var finding = Assert.Single(Judged(
            Around, """  "size":{"circumference":"27.01 in","circumferenceGauge":"26.704 to 27.002 in"}  """).Findings);

        Assert.Equal((Outcome.Fail, "27.01 in"), (finding.Outcome, finding.Measured!.ToString()));
    }

    [Fact]
    public void Under_RoundnessByAGauge_HoldsUntilTwoDiametersAreMeasured()
    {
        var finding = Assert.Single(Judged(Round, """  "size":{"diameterGauge":"8.5001 to 8.595 in"}  """).Findings);

        Assert.Equal((Outcome.Hold, HoldCause.NotMeasured, "size.diameters"), (finding.Outcome, finding.Cause, finding.Path));
    }
}
