using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>All generic words of a verdict in one place; the sentences of a rule come from its edition.</summary>
public static class Explanation
{
    /// <summary>Why a rule holds when something it asks for is missing.</summary>
    public static string NotMeasured(string path) => $"Not decided: {Missing(path)}.";

    /// <summary>Why a rule is met by a gauge, without a figure.</summary>
    public static string Goes(string gauge, string limit) => $"The ball goes through the ring gauge of {gauge}; {limit} is allowed.";

    /// <summary>Why a gauge does not decide a rule.</summary>
    public static string GaugeTooWide(string gauge, string limit) =>
        $"Not decided: the ring gauge of {gauge} lets more through than the allowed {limit}; measure it.";

    /// <summary>Why a rule holds when its limit is not certain enough to decide.</summary>
    public static string Unconfirmed(string? limit, int version) =>
        limit is null ? "No published limit was found for this case; the director must confirm one from a document before it can decide."
        : version < VerdictJson.Latest
            ? $"The limit ({limit}) is known from memory only; the director must confirm it from a document before it can decide."
        : $"The limit ({limit}) is not yet confirmed from the rule book; the director must confirm it from a document before it "
            + "can decide.";

    /// <summary>Why a rule holds when the edition leaves it to the director.</summary>
    public const string Discretion = "The ball is not on the list of approved balls but is older than the list; "
        + "the director decides whether it may be used.";

    /// <summary>Why a rule holds when a reading was taken outside the condition it is valid under.</summary>
    public static string NotValid(string what, string measured) =>
        $"Not decided: {what} was {measured}, outside the range in which this reading counts; measure again inside it.";

    /// <summary>Why a reading that conforms still holds: it lies too near the limit for the uncertainty of the measurement.</summary>
    public static string NearLimit(string measured, string limit, string band) =>
        $"{measured} conforms ({limit}) but lies inside the guard band of {band} before the limit; take a second, careful reading.";

    /// <summary>Why a reading beyond the limit passes: the measurement leaves
    /// a doubt, and the event gives the ball the benefit of it.</summary>
    public static string BenefitOfDoubt(string measured, string limit, string band) =>
        $"{measured} is beyond the limit ({limit}) by no more than the {band} that the measurement leaves in doubt, "
            + "and passes with the benefit of that doubt; take a second, careful reading.";

    /// <summary>A sentence of a rule with the request to read again, for a reading near the limit.</summary>
    public static string ReadAgain(string sentence) => $"{sentence.TrimEnd('.')}; the reading lies near the limit, so take a second one.";

    /// <summary>What a supplement decides where the edition leaves it to the director.</summary>
    /// <param name="held">Why the rule held before the supplement decided.</param>
    /// <param name="title">The supplement's title.</param>
    /// <param name="allows">Whether it allows the ball.</param>
    public static string DecidedBy(string held, string title, bool allows) => held != Discretion
        ? $"{held.TrimEnd('.')}; \"{title}\" {(allows ? "allows" : "bars")} it at this event."
        : allows
        ? $"The ball is not on the list of approved balls but is older than the list; \"{title}\" allows it at this event."
        : $"The ball is not on the list of approved balls; it is older than the list, and \"{title}\" bars it at this event.";

    /// <summary>Why a rule holds when it could not be worked out.</summary>
    public const string RuleError = "This rule could not be worked out from the sheet; an error is never a pass, "
        + "so the director must look at it.";

    /// <summary>Shown when no rule of the edition applies to what was recorded.</summary>
    public const string NothingJudged = "No rule of this edition was checked, so nothing is decided.";

    /// <summary>A rule's name for people: its id in words.</summary>
    public static string RuleTitle(string id) => Titles.TryGetValue(id, out var title) ? title
        : Words.Capital(id.Replace('-', ' '));

    /// <summary>An outcome for people.</summary>
    public static string OutcomeTitle(Outcome outcome) => outcome switch
    {
        Outcome.Pass => "Pass",
        Outcome.Fail => "Fail",
        _ => "Hold",
    };

    /// <summary>How an event decides near a limit, for people.</summary>
    public static string DecisionSentence(DecisionRule rule) => rule.Kind switch
    {
        DecisionKind.GuardedAcceptance => FormattableString.Invariant(
            $"Near a limit: guarded acceptance; a reading within {rule.Factor} standard uncertainties of the limit holds for a second ")
            + "reading.",
        DecisionKind.GuardedRejection => FormattableString.Invariant(
            $"Near a limit: guarded rejection; a reading fails only when it is beyond the limit by more than {rule.Factor} standard ")
            + "uncertainties.",
        _ => "Near a limit: simple acceptance; the reading decides as it is.",
    };

    private static readonly Dictionary<string, string> Titles = new(StringComparer.Ordinal)
    {
        ["approved-list"] = "Approved list",
        ["top-bottom"] = "Top or bottom weight",
        ["left-right"] = "Side weight",
        ["finger-thumb"] = "Finger or thumb weight",
        ["any-halves"] = "Any two halves",
        ["grip-hole-count"] = "Gripping holes",
        ["one-hole-per-digit"] = "One hole a digit",
        ["grip-hole-use"] = "Hole in use",
        ["grip-hole-diameter"] = "Hole diameter",
        ["grip-hole-depth"] = "Hole depth",
        ["void-in-hole"] = "Second hole inside",
        ["made-since"] = "Date made",
    };

    private static string Missing(string path) => Catalogue.At(path)?.Missing ?? $"{path} was not written down";
}
