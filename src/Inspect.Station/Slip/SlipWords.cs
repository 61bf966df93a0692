using System.Globalization;

namespace Inspect.Station.Slip;

/// <summary>The sentences on a slip. The word "pass" is printed only on the slip of a pass: a single rule is "met".</summary>
internal static class SlipWords
{
    public const string Belongs = "This slip belongs to this ball and this grip only.";

    public const string Scan = "A piece of it proves nothing: scan it.";

    public static string Day(DateOnly day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    public static string Days(DateOnly from, DateOnly to)
    {
        if (from == to)
        {
            return Day(from);
        }

        var start = from.Year != to.Year ? Day(from)
            : from.ToString(from.Month != to.Month ? "d MMMM" : "%d", CultureInfo.InvariantCulture);
        return $"{start} to {Day(to)}";
    }

    public static string Moment(DateTimeOffset at) => at.ToString("d MMMM yyyy, HH:mm", CultureInfo.InvariantCulture);

    /// <summary>What the outcome means for play, in a sentence.</summary>
    public static string Standing(SlipContent content) => content.Outcome switch
    {
        _ when content.SupersededBy is not null => "Not good for play: replaced.",
        _ when content.Standing == SlipStanding.Withdrawn => "Not good for play: withdrawn.",
        _ when content.Standing == SlipStanding.CalledBack => "You may not bowl with this ball until it has been measured again.",
        _ when content.Standing == SlipStanding.Accepted => $"Accepted. Good for play {Days(content.GoodFrom, content.GoodTo)}.",
        _ when content.Standing == SlipStanding.Allowed => "You may bowl with this ball until the condition below is met.",
        SlipOutcome.Pass => $"Good for play {Days(content.GoodFrom, content.GoodTo)}.",
        SlipOutcome.Fail => "You may not bowl with this ball here.",
        _ => "You may not bowl with this ball until this is settled.",
    };

    /// <summary>What the bowler does next, where the slip is no plain pass; null for one.</summary>
    public static string? Next(SlipContent content) => content switch
    {
        { SupersededBy: { } later } => $"Use slip {later}.",
        { Standing: SlipStanding.Withdrawn } => "Ask at the inspection table.",
        { Standing: SlipStanding.CalledBack } => "Bring the ball and this slip to the inspection table.",
        { Standing: SlipStanding.Allowed } => "Keep this slip with the ball, and have the ball measured again when the condition is met.",
        { Standing: SlipStanding.Accepted } or { Outcome: SlipOutcome.Pass } => null,
        { Outcome: SlipOutcome.Fail } =>
            "Leave the ball out, or have it worked on and bring it back to the inspection table with this slip before you use it.",
        _ => "Bring the ball and this slip to the inspection table; what stays open there, the director decides.",
    };

    /// <summary>Whether every reading is listed: on the slip of a pass that counts.</summary>
    public static bool ListsReadings(SlipContent content) => content.Outcome == SlipOutcome.Pass && !IsVoid(content);

    /// <summary>What is in order, where the readings are not listed.</summary>
    public static string InOrder(SlipContent content)
    {
        var met = content.Findings.Count(finding => finding.Outcome == SlipOutcome.Pass);
        var others = met == content.Findings.Count ? "" : "other ";
        return met == 1 ? $"1 {others}check in order." : $"{met} {others}checks in order.";
    }

    /// <summary>The line in white on black that heads a slip that was replaced or ruled on; null for others.</summary>
    public static string? Banner(SlipContent content) => content switch
    {
        { SupersededBy: { } later } => $"Replaced by {SlipPaper.Settable(later)}: this slip no longer counts.",
        { Standing: SlipStanding.Withdrawn } => "Withdrawn: this slip no longer counts.",
        { Standing: SlipStanding.CalledBack } => "To be measured again: not to be used until then.",
        { Standing: SlipStanding.Accepted } => "Accepted by the director's ruling.",
        { Standing: SlipStanding.Allowed } => "Allowed on a condition by the director's ruling.",
        _ => null,
    };

    /// <summary>Whether a pass on this slip no longer counts.</summary>
    public static bool IsVoid(SlipContent content) =>
        content.SupersededBy is not null || content.Standing is SlipStanding.Withdrawn or SlipStanding.CalledBack;

    /// <summary>The number of findings, by outcome.</summary>
    public static string Count(SlipContent content)
    {
        var met = content.Findings.Count(finding => finding.Outcome == SlipOutcome.Pass);
        var failed = content.Findings.Count(finding => finding.Outcome == SlipOutcome.Fail);
        var open = content.Findings.Count - met - failed;
        var parts = new List<string> { $"{met} met" };
        if (failed > 0)
        {
            parts.Insert(0, $"{failed} failed");
        }

        if (open > 0)
        {
            parts.Insert(failed > 0 ? 1 : 0, $"{open} open");
        }

        return $"{content.Findings.Count} {(content.Findings.Count == 1 ? "finding" : "findings")}: {string.Join(", ", parts)}";
    }

    /// <summary>That a slip is not the first print.</summary>
    public static string Again(DateTimeOffset first, DateTimeOffset now) => first.Date == now.Date
        ? $"Printed again on {Moment(now)}; first at {first.ToString("HH:mm", CultureInfo.InvariantCulture)}."
        : $"Printed again on {Moment(now)}; first on {Moment(first)}.";

    public static string Register(SlipContent content) => $"{RegisterOf(content.RegisterSize)}, root {content.RegisterRoot}";

    /// <summary>The size of the register, in words for slips and papers.</summary>
    public static string RegisterOf(long entries) =>
        entries == 1 ? "register of 1 entry" : string.Create(CultureInfo.InvariantCulture, $"register of {entries:N0} entries");

    /// <summary>A finding's name: the rule, and what it was applied to unless that is the ball itself.</summary>
    public static string NameOf(SlipFinding finding) =>
        finding.Subject is "" or "ball" ? finding.Rule : $"{finding.Rule}, {finding.Subject}";

    public static string Lacking(IReadOnlyList<string> letters) =>
        $"{SlipPaper.Substitute} is printed for a letter that the font lacks: {string.Join(", ", letters)}.";
}
