using Inspect.Rules.Rulesets;
using Inspect.Rules.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Looks whether the ball's model stands on the list of approved balls.</summary>
internal static class ListCheck
{
    private const string Path = "ball.listed";

    public static Finding Of(RuleCheck check, Rule.Listed rule)
    {
        var facts = check.Facts;
        if (facts.Sheet.Ball?.Listed is not ({ } listed and not Listing.Unknown))
        {
            return Found.NotMeasured(rule, RuleCheck.Ball, Path);
        }

        var confirmation = rule.Reference.Basis == Basis.Memory ? check.Terms.Confirming(rule.Id, null) : null;
        return rule.Reference.Basis == Basis.Memory && confirmation is null
            ? Found.Unconfirmed(rule, rule.Reference, RuleCheck.Ball, Path, Words.Of(listed), null)
            : Judged(check, rule, listed) with { Confirmed = confirmation?.Mark };
    }

    private static Finding Judged(RuleCheck check, Rule.Listed rule, Listing listed)
    {
        var (facts, values) = (check.Facts, check.Values(Words.Of(listed), null, RuleCheck.Ball));
        if (listed == Listing.Yes)
        {
            return Found.Decided(rule, rule.Reference, Outcome.Pass, RuleCheck.Ball, Path, "listed", "listed", null, values);
        }

        if (rule.Discretion is not null && facts.Holds(rule.Discretion) is var discretion && discretion.Value != false)
        {
            return discretion.Value is null
                ? Found.NotMeasured(rule, RuleCheck.Ball, discretion.Missing!)
                : new Finding(rule.Id, RuleCheck.Ball, Path, Outcome.Hold, HoldCause.Discretion, "not listed", "listed", null, Explanation.Discretion, rule.Reference);
        }

        var alsoApproved = rule.AlsoApproved is null ? Answer.No : facts.Holds(rule.AlsoApproved);
        return alsoApproved.Value is null ? Found.NotMeasured(rule, RuleCheck.Ball, alsoApproved.Missing!)
            : alsoApproved.Value == true
                ? Found.Decided(rule, rule.Reference, Outcome.Pass, RuleCheck.Ball, Path, "not listed", "listed or approved besides", null, values)
                : Found.Decided(rule, rule.Reference, Outcome.Fail, RuleCheck.Ball, Path, "not listed", "listed", null, values);
    }
}
