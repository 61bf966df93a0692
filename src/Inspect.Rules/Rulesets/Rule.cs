using Inspect.Sheets;

namespace Inspect.Rules.Rulesets;

/// <summary>How sure it is that the governing body says so.</summary>
public enum Basis
{
    /// <summary>The body's own page or document.</summary>
    Official,

    /// <summary>Official text repeated or translated by a federation or association.</summary>
    Reprint,

    /// <summary>Trade press, a shop or an event page that sums the rule up.</summary>
    Summary,

    /// <summary>Recalled from the trade and seen in no document: never decides alone.</summary>
    Memory,
}

/// <summary>Where a rule was read.</summary>
public sealed record Reference(string Title, string? Section, Basis Basis);

/// <summary>The sentences of a rule, with places for the reading, the limit and the like.</summary>
/// <param name="Pass">When it is met.</param>
/// <param name="Fail">When it is not met.</param>
/// <param name="Hold">When it is left to the director; absent for the common case of a ball older than the list.</param>
public sealed record Sentences(string Pass, string Fail, string? Hold = null);

/// <summary>One rule of an edition; a closed family of kinds.</summary>
public abstract record Rule
{
    private Rule()
    {
    }

    /// <summary>The rule's id, such as <c>left-right</c>; several checks may belong to one rule.</summary>
    public required string Id { get; init; }

    /// <summary>Which of the rule's checks this is, where it has several.</summary>
    public string? Check { get; init; }

    /// <summary>It applies only when this holds.</summary>
    public Condition? When { get; init; }

    /// <summary>It does not apply when this holds.</summary>
    public Condition? Unless { get; init; }

    /// <summary>When the director decides on a ball that does not meet it; only for the kinds required, forbidden and listed.</summary>
    public Condition? Discretion { get; init; }

    /// <summary>Where it was read.</summary>
    public required Reference Reference { get; init; }

    /// <summary>How a pass and a fail are explained.</summary>
    public required Sentences Sentences { get; init; }

    /// <summary>A measured quantity lies within a limit.</summary>
    public sealed record Limited : Rule
    {
        /// <summary>What is measured.</summary>
        public required RuleQuantity Quantity { get; init; }

        /// <summary>Which figure of the readings is compared.</summary>
        public required Statistic Statistic { get; init; }

        /// <summary>The holes it looks at, for a quantity of holes.</summary>
        public HoleChoice? Holes { get; init; }

        /// <summary>The reading counts only when it was taken under this condition.</summary>
        public Condition? Valid { get; init; }

        /// <summary>The limits, the first whose condition holds.</summary>
        public required IReadOnlyList<LimitCase> Cases { get; init; }
    }

    /// <summary>A number of holes, marks or balls lies within a limit.</summary>
    public sealed record Counted : Rule
    {
        /// <summary>What is counted.</summary>
        public required CountedThing Counts { get; init; }

        /// <summary>The holes counted, where holes are.</summary>
        public HoleChoice? Holes { get; init; }

        /// <summary>Whether there is a separate count for each digit, or for each hole that vents lie in.</summary>
        public CountPer Per { get; init; }

        public required IReadOnlyList<LimitCase> Cases { get; init; }
    }

    /// <summary>Something must be so, or must not be so.</summary>
    public sealed record Stated : Rule
    {
        public required Fact Fact { get; init; }

        /// <summary>The answer that passes.</summary>
        public required bool Wanted { get; init; }

        /// <summary>For a fact that is a word: the words that count as true.</summary>
        public IReadOnlyList<string>? Among { get; init; }

        public HoleChoice? Holes { get; init; }

        /// <summary>How the two answers are worded, true first.</summary>
        public required (string True, string False) Answers { get; init; }
    }

    /// <summary>A maker, model or serial must not be barred.</summary>
    public sealed record Barred : Rule
    {
        public required Fact Fact { get; init; }

        public required IReadOnlyList<BallName> Names { get; init; }

        /// <summary>For serials: the patterns that are barred.</summary>
        public required IReadOnlyList<SerialPattern> Patterns { get; init; }

        /// <summary>How barred and not barred are worded.</summary>
        public required (string Barred, string Free) Answers { get; init; }
    }

    /// <summary>The ball's model must be on the list of approved balls.</summary>
    public sealed record Listed : Rule
    {
        /// <summary>When an unlisted ball is still approved.</summary>
        public Condition? AlsoApproved { get; init; }
    }
}

/// <summary>One of a rule's limits and when it applies.</summary>
/// <param name="When">It applies when this holds; absent means always.</param>
/// <param name="Limit">Absent when no published figure was found: the rule then holds whatever the reading.</param>
/// <param name="Reference">Where this figure was read.</param>
public sealed record LimitCase(Condition? When, Limit? Limit, Reference Reference);

/// <summary>Which holes a rule looks at.</summary>
/// <param name="Kinds">The kinds of holes.</param>
/// <param name="UnusedThumb">Whether a thumb hole not used on every delivery is included.</param>
public sealed record HoleChoice(IReadOnlyList<HoleKind> Kinds, bool UnusedThumb);

/// <summary>Which figure of the readings is compared with the limit.</summary>
public enum Statistic
{
    /// <summary>The one reading as it is.</summary>
    Single,

    /// <summary>The size of the reading, whichever side it points to.</summary>
    Size,

    /// <summary>Every reading on its own.</summary>
    Each,

    /// <summary>The average of the readings.</summary>
    Average,

    /// <summary>The largest less the smallest.</summary>
    Spread,
}

/// <summary>What a count rule counts.</summary>
public enum CountedThing
{
    Holes,
    PalmMarks,

    /// <summary>The bowler's balls up to this one.</summary>
    Balls,
}

/// <summary>Whether a count is one for the ball or one for each digit or host hole.</summary>
public enum CountPer
{
    Ball,
    Digit,

    /// <summary>For each gripping hole that vents lie in.</summary>
    Host,
}

/// <summary>Advice, not a rule: it is shown with the verdict when the
/// reading lies in its range and its condition holds, or always.</summary>
/// <param name="Id">Its short name.</param>
/// <param name="Reading">The readings at which it is shown; absent when it does not depend on one.</param>
/// <param name="When">It is shown only when this holds; absent means always.</param>
/// <param name="Text">One sentence or two.</param>
public sealed record AdviceNote(string Id, NotedReading? Reading, Condition? When, string Text);

/// <summary>A figure of the readings of a quantity, and the range in which a note is shown.</summary>
public sealed record NotedReading(RuleQuantity Quantity, Statistic Statistic, Limit Limit);
