using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Judging;

/// <summary>Puts findings together, each kind in one way.</summary>
internal static class Found
{
    /// <summary>A pass or a fail, in the sentence of its rule.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="reference">Where its limit was read, and who confirmed it where someone had to.</param>
    /// <param name="passes">Whether the ball conforms.</param>
    /// <param name="subject">The ball or the hole.</param>
    /// <param name="path">The member of the sheet that was read.</param>
    /// <param name="values">What the places of the sentence are filled with; the reading and the limit are among them.</param>
    /// <param name="margin">The signed distance from the limit, where there is one.</param>
    public static Finding Decided(
        Rule rule,
        (Reference Read, ConfirmedBy? Confirmed) reference,
        bool passes,
        string subject,
        string path,
        Dictionary<string, string?> values,
        string? margin = null) =>
        new(rule.Id, subject, path, passes ? Outcome.Pass : Outcome.Fail, null, values["measured"], values["limit"], margin,
            Placeholders.Fill(passes ? rule.Sentences.Pass : rule.Sentences.Fail, values), reference.Read, Confirmed: reference.Confirmed);

    /// <summary>A hold because something the rule asks for is missing.</summary>
    public static Finding NotMeasured(Rule rule, string subject, string missing, LimitCase? limitCase = null) =>
        new(rule.Id, subject, missing, Outcome.Hold, HoldCause.NotMeasured, null, limitCase?.Limit?.ToString(), null,
            Explanation.NotMeasured(missing), limitCase?.Reference ?? rule.Reference);

    /// <summary>A hold because the limit is known from memory only, or was not found.</summary>
    public static Finding Unconfirmed(Rule rule, Reference reference, string subject, string path, string? measured, string? limit) =>
        new(rule.Id, subject, path, Outcome.Hold, HoldCause.LimitUnconfirmed, measured, limit, null, Explanation.Unconfirmed(limit), reference);
}
