using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Rules.Tests.Supplements;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Tests.NearLimits;

/// <summary>Side weight of at most 3 oz on a balance that shows tenths of an ounce.</summary>
internal static class Side
{
    public static readonly Limit Limit = new(null, new Bound(3 * Units.GramsPerOunce, true, "3 oz"));

    public static readonly Uncertainty Uncertainty = new(RuleQuantity.LeftRight, Ounces("0.1 oz"), Ounces("0.03 oz"), Ounces("0.03 oz"));

    public static Reading Ounces(string text) => ReadingParser.Parse(text, Quantity.Imbalance).Reading!;

    public static Reading Points(string text) => ReadingParser.Parse(text, Quantity.Hardness).Reading!;

    /// <summary>The finding on a side weight under a decision rule, everything else of the ball being legal.</summary>
    public static (Finding Finding, Verdict Verdict) Judged(string reading, DecisionRule? rule = null)
    {
        var terms = new JudgingTerms { DecisionRule = rule ?? DecisionRule.Simple, Uncertainties = [Uncertainty] };
        var verdict = Judge.Under(Lantern.Edition, Lantern.Sheet($$"""{ "weights.leftRight": "{{reading}}" }"""), terms);
        return (verdict.Findings.Single(finding => finding.Rule == "left-right"), verdict);
    }
}
