using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Builds findings, each kind in one way.</summary>
internal static class Found
{
    /// <summary>A pass or a fail, in the sentence of its rule.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="reference">Where its limit was read, and who confirmed it where that was needed.</param>
    /// <param name="passes">Whether the ball conforms.</param>
    /// <param name="subject">The ball or the hole.</param>
    /// <param name="path">The member of the sheet that was read.</param>
    /// <param name="measured">The reading, or what was found.</param>
    /// <param name="limit">What is allowed.</param>
    /// <param name="valueOf">The words for any further place of the sentence, in a version of the record.</param>
    /// <param name="margin">The signed distance from the limit, where there is one.</param>
    public static Finding Decided(
        Rule rule,
        (Reference Read, ConfirmedBy? Confirmed) reference,
        bool passes,
        string subject,
        string path,
        Amount measured,
        Allowed limit,
        Func<string, int, string?>? valueOf = null,
        Exact? margin = null)
    {
        var sentence = passes ? rule.Sentences.Pass : rule.Sentences.Fail;
        return new(rule.Id, subject, path, passes ? Outcome.Pass : Outcome.Fail, null,
            measured, limit, margin is null ? null : new Amount(null, margin),
            new Sentence(version => Placeholders.Fill(sentence, place => place switch
            {
                "measured" => measured.ToString(),
                "limit" => limit.ToString(),
                // The comma of "thumb, piece 2" would split the sentence in the wrong place.
                "subject" => subject.Replace(", ", " ", StringComparison.Ordinal),
                _ => valueOf?.Invoke(place, version),
            })),
            reference.Read, Confirmed: reference.Confirmed);
    }

    /// <summary>A hold because something the rule asks for is missing.</summary>
    public static Finding NotMeasured(Rule rule, string subject, string missing, LimitCase? limitCase = null) =>
        new(rule.Id, subject, missing, Outcome.Hold, HoldCause.NotMeasured, null, Limit(rule, limitCase), null,
            new Sentence(_ => Explanation.NotMeasured(missing)), limitCase?.Reference ?? rule.Reference);

    /// <summary>What a case allows; a day is in words, because it is not a number.</summary>
    private static Allowed? Limit(Rule rule, LimitCase? limitCase) =>
        rule is Rule.Limited { Quantity: RuleQuantity.Made } ? Allowed.Of(limitCase?.Limit?.ToString()) : Allowed.Of(limitCase?.Limit);

    /// <summary>A hold because the limit is known from memory only, or was not found.</summary>
    public static Finding Unconfirmed(Rule rule, Reference reference, string subject, string path, Amount? measured, Allowed? limit) =>
        new(rule.Id, subject, path, Outcome.Hold, HoldCause.LimitUnconfirmed, measured, limit, null,
            new Sentence(version => Explanation.Unconfirmed(limit?.ToString(), version)), reference);
}
