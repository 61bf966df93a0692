using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Judging;

/// <summary>Checks whether a maker, model or serial is barred, and quotes what matched.</summary>
internal static class BarCheck
{
    public static Finding Of(SheetFacts facts, JudgingTerms terms, Rule.Barred rule)
    {
        var (text, path) = facts.TextOf(rule.Fact);
        if (text is null)
        {
            return Found.NotMeasured(rule, RuleCheck.Ball, path);
        }

        var limit = rule.Answers.Free;
        var confirmation = rule.Reference.Basis == Basis.Memory ? terms.Confirming(rule.Id, limit) : null;
        if (rule.Reference.Basis == Basis.Memory && confirmation is null)
        {
            return Found.Unconfirmed(rule, rule.Reference, RuleCheck.Ball, path, new Amount(text), new Allowed(limit));
        }

        var (pattern, matched) = Match(rule, text);
        return Found.Decided(
            rule, (rule.Reference, confirmation?.Mark), matched is null, RuleCheck.Ball, path, new Amount(text), new Allowed(limit),
            (place, _) => place == "pattern" ? pattern : place == "matched" ? matched : null);
    }

    /// <summary>The first name or pattern that matches, and the characters of the ball's text that it matched.</summary>
    private static (string? Pattern, string? Matched) Match(Rule.Barred rule, string text)
    {
        if (rule.Names.FirstOrDefault(name => name.Is(text)) is { } barred)
        {
            return (barred.Text, text);
        }

        return rule.Patterns.Select(pattern => (pattern.Text, Matched: pattern.MatchIn(text)))
            .FirstOrDefault(match => match.Matched is not null);
    }
}
