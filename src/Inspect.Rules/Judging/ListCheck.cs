using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Checks whether the ball's model is on the list of approved balls.</summary>
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
            ? Found.Unconfirmed(rule, rule.Reference, RuleCheck.Ball, Path, new Amount(Words.Of(listed)), null)
            : Judged(check, rule, listed, (rule.Reference, confirmation?.Mark));
    }

    private static Finding Judged(RuleCheck check, Rule.Listed rule, Listing listed, (Reference Read, ConfirmedBy? Confirmed) reference)
    {
        if (listed == Listing.Yes)
        {
            return Found.Decided(rule, reference, true, RuleCheck.Ball, Path, new Amount("listed"), new Allowed("listed"), check.ValueOf);
        }

        if (check.LeftToDirector(rule, Path, "not listed", "listed") is { } held)
        {
            return held;
        }

        var alsoApproved = rule.AlsoApproved is null ? FactState.No : check.Facts.Holds(rule.AlsoApproved);
        if (alsoApproved.Value is not { } approved)
        {
            return Found.NotMeasured(rule, RuleCheck.Ball, alsoApproved.Missing!);
        }

        return Found.Decided(rule, reference, approved, RuleCheck.Ball, Path, new Amount("not listed"),
            new Allowed(approved ? "listed or approved besides" : "listed"), check.ValueOf);
    }
}
