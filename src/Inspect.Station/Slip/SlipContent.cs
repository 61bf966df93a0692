using Inspect.Station.Pictures;
using Inspect.Station.Record;

namespace Inspect.Station.Slip;

/// <summary>The outcome printed for a ball or for one rule.</summary>
public enum SlipOutcome
{
    Pass,
    Fail,
    Hold,
}

/// <summary>What a ruling did to a slip.</summary>
public enum SlipStanding
{
    /// <summary>Nothing was ruled: the verdict counts as found.</summary>
    AsFound,

    /// <summary>What was open is settled in the ball's favour.</summary>
    Accepted,

    /// <summary>The ball may be used until a condition is met.</summary>
    Allowed,

    /// <summary>The ball is to be measured again before it is used.</summary>
    CalledBack,

    /// <summary>The slip no longer counts.</summary>
    Withdrawn,
}

/// <summary>One rule's line on a slip, every figure as recorded.</summary>
/// <param name="Rule">The rule's title, say <c>Left or right</c>.</param>
/// <param name="Subject">What it was applied to, say <c>thumb</c>; <c>ball</c> is not printed.</param>
/// <param name="Measured">The reading, or null when nothing was measured.</param>
/// <param name="Limit">The limit in words, or null for a rule without one.</param>
/// <param name="Margin">How far inside the limit, with its sign; null where nothing was measured, as for a count.</param>
/// <param name="Outcome">What the rule says.</param>
/// <param name="Reason">The sentence that is printed in full for a fail or a hold.</param>
public sealed record SlipFinding(
    string Rule, string Subject, string? Measured, string? Limit, string? Margin, SlipOutcome Outcome, string? Reason);

/// <summary>Everything that a slip prints, in words and dates ready to print.</summary>
public sealed record SlipContent
{
    public required SlipOutcome Outcome { get; init; }

    /// <summary>The inspection's number, say <c>LANTERN-0417</c>.</summary>
    public required string Number { get; init; }

    public required SlipCode Code { get; init; }

    /// <summary>What the QR code carries, see <see cref="ScanAddress"/>.</summary>
    public required string ScanUrl { get; init; }

    public required string Event { get; init; }

    /// <summary>The first and last day on which the slip is good, both included.</summary>
    public required DateOnly GoodFrom { get; init; }

    /// <inheritdoc cref="GoodFrom"/>
    public required DateOnly GoodTo { get; init; }

    /// <summary>The day of play under whose rules the ball was judged.</summary>
    public required DateOnly Play { get; init; }

    public required string Bowler { get; init; }

    /// <summary>The bowler's number in the event.</summary>
    public required string Entry { get; init; }

    public required string BallMaker { get; init; }

    public required string BallModel { get; init; }

    public required string BallSerial { get; init; }

    /// <summary>The tag stuck on the ball at check-in, if any.</summary>
    public string? BallTag { get; init; }

    /// <summary>A sentence with the grip under which the ball was judged.</summary>
    public required string Grip { get; init; }

    /// <summary>The edition's title and id, or null when none was in force on the day of play.</summary>
    public string? EditionTitle { get; init; }

    /// <inheritdoc cref="EditionTitle"/>
    public string? EditionId { get; init; }

    public IReadOnlyList<string> Supplements { get; init; } = [];

    public required string Inspector { get; init; }

    /// <summary>When the inspection was recorded, at the venue's own offset.</summary>
    public required DateTimeOffset RecordedAt { get; init; }

    /// <summary>When the ball was measured, where that was written on paper first; at the venue's own offset.</summary>
    public DateTimeOffset? MeasuredAt { get; init; }

    /// <summary>When the slip was first printed, and when it was printed again; null for the first one.</summary>
    public (DateTimeOffset First, DateTimeOffset Now)? Again { get; init; }

    /// <summary>In the edition's order.</summary>
    public IReadOnlyList<SlipFinding> Findings { get; init; } = [];

    /// <summary>Reasons of the whole verdict rather than of one rule, such as that no edition was in force.</summary>
    public IReadOnlyList<string> Reasons { get; init; } = [];

    /// <summary>Titles of the rules that the event's plan leaves out.</summary>
    public IReadOnlyList<string> NotChecked { get; init; } = [];

    /// <summary>The ruling in force in a sentence, if there is one.</summary>
    public string? Ruling { get; init; }

    /// <summary>What that ruling means for play.</summary>
    public SlipStanding Standing { get; init; }

    /// <summary>The number of the earlier slip that this one replaces.</summary>
    public string? Supersedes { get; init; }

    /// <summary>The number of the later slip that replaced this one; printed at the head.</summary>
    public string? SupersededBy { get; init; }

    /// <summary>Advice, one sentence each. It is not a rule.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];

    /// <summary>What could cure a failed ball, in a sentence or two.</summary>
    public string? Advice { get; init; }

    /// <summary>The balance as a picture; printed where there is room.</summary>
    public BalanceDrawing? Balance { get; init; }

    /// <summary>Entries in the register when this slip was made, and the first characters of its root hash.</summary>
    public required long RegisterSize { get; init; }

    /// <inheritdoc cref="RegisterSize"/>
    public required string RegisterRoot { get; init; }
}
