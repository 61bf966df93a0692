using System.Globalization;
using Inspect.Station.Access;
using Inspect.Station.Prepare;

namespace Inspect.Station.Record;

/// <summary>One decision about a recorded inspection, from the register. Its reason and condition are stored separately
/// and can be struck.</summary>
/// <param name="Seq">Its entry in the register.</param>
/// <param name="Inspection">The inspection it is about.</param>
/// <param name="Decision">What was decided.</param>
/// <param name="Reason">Why; null when struck.</param>
/// <param name="Condition">What has to happen; null for a decision without a condition.</param>
/// <param name="By">Who decided.</param>
/// <param name="At">When.</param>
public sealed record Ruling(
    long Seq, InspectionNumber Inspection, Decision Decision, string? Reason, string? Condition, PersonId By, DateTimeOffset At)
{
    /// <summary>The ruling in a sentence or two, for slip, page and scan.</summary>
    /// <param name="zone">The venue's time zone, for the day.</param>
    /// <param name="by">The name of the person who decided; null to give the office instead.</param>
    public string Sentence(TimeZoneInfo zone, string? by)
    {
        var deed = Decision switch
        {
            Decision.Accept => "Accepted by",
            Decision.Allow => "Allowed on a condition by",
            Decision.Remeasure => "A second measurement ordered by",
            Decision.Recall => "Called back by",
            Decision.Withdraw => "Withdrawn by",
            _ => "Taken back by",
        };
        var office = Decision switch
        {
            Decision.Undo => "the inspector",
            Decision.Recall => "the equipment table",
            _ => "the director",
        };
        var condition = Condition is null ? "" : $" Condition: {Ended(Condition)}";
        var day = TimeZoneInfo.ConvertTime(At, zone).ToString("d MMMM yyyy", CultureInfo.InvariantCulture);
        return $"{deed} {by ?? office} on {day}: {Ended(Reason ?? "the reason was struck")}{condition}";
    }

    /// <summary>The ruling without a text that names a bowler who is under age.</summary>
    /// <param name="young">Those of the event.</param>
    /// <param name="entry">The entry whose ball it is about.</param>
    public Ruling ForAnyone(YoungBowlers young, string entry) =>
        this with { Reason = young.Shown(Reason, entry), Condition = young.Shown(Condition, entry) };

    private static string Ended(string text) => text[^1] is '.' or '!' or '?' ? text : text + ".";
}
