using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Judging;

/// <summary>Puts findings together, each kind in one way.</summary>
internal static class Found
{
    /// <summary>A pass or a fail, in the sentence of its rule.</summary>
    public static Finding Decided(
        Rule rule, Reference reference, Outcome outcome, string subject, string path, string measured, string? limit, string? margin, IReadOnlyDictionary<string, string?> values) =>
        new(rule.Id, subject, path, outcome, null, measured, limit, margin,
            Placeholders.Fill(outcome == Outcome.Pass ? rule.Sentences.Pass : rule.Sentences.Fail, values), reference);

    /// <summary>A hold because something the rule asks for is missing.</summary>
    public static Finding NotMeasured(Rule rule, string subject, string missing, LimitCase? limitCase = null) =>
        new(rule.Id, subject, missing, Outcome.Hold, HoldCause.NotMeasured, null, limitCase?.Limit?.ToString(), null,
            Explanation.NotMeasured(missing), limitCase?.Reference ?? rule.Reference);

    /// <summary>A hold because the limit is known from memory only, or was not found.</summary>
    public static Finding Unconfirmed(Rule rule, Reference reference, string subject, string path, string? measured, string? limit) =>
        Unconfirmed(rule, reference, subject, path, measured, limit, limit);

    /// <summary>The same where the limit is worded one way for the finding and another, or not at all, for the reason.</summary>
    public static Finding Unconfirmed(Rule rule, Reference reference, string subject, string path, string? measured, string? limit, string? said) =>
        new(rule.Id, subject, path, Outcome.Hold, HoldCause.LimitUnconfirmed, measured, limit, null, Explanation.Unconfirmed(said), reference);
}
