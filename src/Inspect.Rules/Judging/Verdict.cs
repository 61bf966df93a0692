using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Judging;

/// <summary>The result of one rule, or of the whole ball.</summary>
public enum Outcome
{
    /// <summary>The rule is met; for the whole ball, every rule is.</summary>
    Pass,

    /// <summary>The rule is not met; for the whole ball, at least one is not.</summary>
    Fail,

    /// <summary>The rule cannot be decided yet; for the whole ball, at least one cannot and none fails.</summary>
    Hold,
}

/// <summary>Why something could not be decided.</summary>
public enum HoldCause
{
    /// <summary>A reading or an observation that the rule asks for is missing or cannot be used.</summary>
    NotMeasured,

    /// <summary>The reading lies inside the guard band that the event set.</summary>
    NearLimit,

    /// <summary>The limit is known from memory only, or no published figure was found.</summary>
    LimitUnconfirmed,

    /// <summary>The edition leaves it to the director.</summary>
    Discretion,

    /// <summary>No edition of the authority is in force on the day of play.</summary>
    NoEdition,

    /// <summary>The rule could not be worked out; an error is never a pass.</summary>
    RuleError,
}

/// <summary>The result of one rule for the ball or for one of its holes.</summary>
/// <param name="Rule">The rule's id.</param>
/// <param name="Subject">The ball, or the hole as an inspector calls it.</param>
/// <param name="Path">The member of the sheet that was read, or that is missing.</param>
/// <param name="Outcome">Pass, fail or hold.</param>
/// <param name="Cause">Why it holds.</param>
/// <param name="Measured">The reading as typed, or the figure formed of several, or the state that was found.</param>
/// <param name="Limit">What is allowed.</param>
/// <param name="Margin">Signed distance from the limit in the notation of the reading; negative is outside.</param>
/// <param name="Sentence">Why, in one sentence; formed when it is read.</param>
/// <param name="Reference">Where the rule was read.</param>
/// <param name="Supplement">The supplement that set or decided it; absent where the edition did.</param>
/// <param name="Conformance">The probability that the ball conforms, to three
/// decimals, for a reading of known uncertainty near the limit.</param>
/// <param name="Confirmed">Who confirmed the limit, where it is known from memory or was not found.</param>
public sealed record Finding(
    string Rule,
    string Subject,
    string? Path,
    Outcome Outcome,
    HoldCause? Cause,
    Amount? Measured,
    Allowed? Limit,
    Amount? Margin,
    Sentence Sentence,
    Reference Reference,
    string? Supplement = null,
    string? Conformance = null,
    ConfirmedBy? Confirmed = null)
{
    /// <summary>Why, in one sentence.</summary>
    public string Reason => Sentence.ToString();
}

/// <summary>The edition a verdict was reached under.</summary>
public sealed record EditionMark(string Id, string Sha256);

/// <summary>A supplement a verdict was reached under.</summary>
public sealed record SupplementMark(string Id, DateOnly Version, string Sha256)
{
    /// <summary>The mark of a supplement as it was loaded.</summary>
    public static SupplementMark Of(Supplement supplement) => new(supplement.Id, supplement.Version, supplement.Sha256);
}

/// <summary>An error inside a rule.</summary>
/// <param name="Rule">The rule's id.</param>
/// <param name="Source">The id of the edition or the supplement that has the rule.</param>
/// <param name="Error">What was thrown.</param>
public sealed record RuleError(string Rule, string Source, Exception Error)
{
    /// <summary>Whether another is of the same rule and cause, so that one of them is enough to find the fault.</summary>
    public bool IsLike(RuleError other) =>
        (Rule, Source, Error.GetType(), Error.Message) == (other.Rule, other.Source, other.Error.GetType(), other.Error.Message);
}

/// <summary>Advice shown with the verdict; it is not a rule.</summary>
public sealed record Note(string Id, string Text);

/// <summary>The result of judging a sheet: all findings in the edition's order, and the outcome that follows from them.</summary>
public sealed record Verdict
{
    /// <summary>Pass, fail or hold; follows from the findings.</summary>
    public required Outcome Outcome { get; init; }

    /// <summary>Why there are no findings at all: no edition in force.</summary>
    public HoldCause? Cause { get; init; }

    /// <summary>The edition it was reached under; null when none is in force.</summary>
    public EditionMark? Edition { get; init; }

    /// <summary>The event's own rules it was reached under.</summary>
    public IReadOnlyList<SupplementMark> Supplements { get; init; } = [];

    /// <summary>How a reading near a limit was decided.</summary>
    public DecisionRule DecisionRule { get; init; } = DecisionRule.Simple;

    /// <summary>A finding for each rule, or for each hole that a rule looks at,
    /// in the edition's order; then those of the event's own rules.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>The ids of rules outside the plan.</summary>
    public IReadOnlyList<string> NotChecked { get; init; } = [];

    /// <summary>Advice of the edition that applies; it decides nothing.</summary>
    public IReadOnlyList<Note> Notes { get; init; } = [];

    /// <summary>Errors inside rules, which hold because of them. They are for the
    /// person who runs the station and are never written with the verdict.</summary>
    public IReadOnlyList<RuleError> RuleErrors { get; init; } = [];

    /// <summary>Any fail makes a fail, else any hold a hold, else a pass; no finding at all is a hold.</summary>
    public static Outcome Of(IReadOnlyList<Finding> findings) =>
        findings.Any(finding => finding.Outcome == Outcome.Fail) ? Outcome.Fail
        : findings.Count == 0 || findings.Any(finding => finding.Outcome == Outcome.Hold) ? Outcome.Hold
        : Outcome.Pass;
}
