using System.Data.Common;
using Dapper;
using Inspect.Rules.Judging;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.Decide;

/// <summary>Why an inspection is open.</summary>
/// <param name="Title">The heading of such inspections.</param>
/// <param name="Sentence">What it means for their balls.</param>
public sealed record OpenGroup(string Title, string Sentence)
{
    public static readonly OpenGroup AnotherBall = new(
        "Another ball on the lanes", "A spot check found another ball than was recorded; the director decides.");
    public static readonly OpenGroup Changed = new(
        "Changed after the freeze", "It reads otherwise than its slip, by more than the instruments allow; the director decides.");
    public static readonly OpenGroup OnCondition = new("Allowed on a condition", "In play; the condition is still to be met.");
    public static readonly OpenGroup ToMeasureAgain = new(
        "To be measured again", "Called back to the table: not to be used until then.");
    public static readonly OpenGroup Undecided = new("Undecided", "Not to be used until the open points are settled.");
    public static readonly OpenGroup Failed = new("Failed, not measured again", "Not to be used as they are.");

    /// <summary>All, most urgent first.</summary>
    public static readonly IReadOnlyList<OpenGroup> All = [AnotherBall, Changed, OnCondition, ToMeasureAgain, Undecided, Failed];

    /// <summary>The group of an inspection that was not replaced; null when nothing of it is open.</summary>
    internal static OpenGroup? Of(Decision? ruled, Outcome outcome, bool isAnotherBall, bool isChanged) => (ruled, outcome) switch
    {
        (not (Decision.Withdraw or Decision.Undo), _) when isAnotherBall => AnotherBall,
        (null, _) when isChanged => Changed,
        (Decision.Accept or Decision.Withdraw or Decision.Undo, _) => null,
        (Decision.Allow, _) => OnCondition,
        (Decision.Remeasure or Decision.Recall, _) => ToMeasureAgain,
        (_, Outcome.Hold) => Undecided,
        (_, Outcome.Fail) => Failed,
        _ => null,
    };
}

/// <summary>One inspection with open points.</summary>
/// <param name="Group">Why it is open.</param>
/// <param name="Number">Its number.</param>
/// <param name="Entry">The bowler's number.</param>
/// <param name="Bowler">The bowler's name; null when struck.</param>
/// <param name="Ball">Maker, model and serial of the ball.</param>
/// <param name="Outcome">The measured verdict.</param>
/// <param name="Points">The open points, a sentence each.</param>
/// <param name="Settles">What would settle it.</param>
public sealed record OpenItem(
    OpenGroup Group, string Number, string Entry, string? Bowler, string Ball, string Outcome, IReadOnlyList<string> Points,
    string Settles);

/// <summary>Which inspections of an event are not settled, most urgent first. What is open of each is read when it is shown.</summary>
/// <param name="Places">The entries of the register with the reason why each is open.</param>
/// <param name="HasInspections">Whether anything was inspected at the event.</param>
public sealed record OpenList(IReadOnlyList<(OpenGroup Group, long Seq)> Places, bool HasInspections)
{
    /// <summary>What is said when nothing is open.</summary>
    public string WhenNothing => HasInspections
        ? "Nothing is open: every ball inspected was passed, settled or withdrawn."
        : "Nothing has been inspected at this event yet. Balls that fail, or whose verdict stays open, will be listed here.";
}

/// <summary>Makes the list of what is open at an event, from the register.</summary>
public sealed class OpenLists(Database database, People people)
{
    /// <summary>What is open at an event.</summary>
    public OpenList Of(Event held)
    {
        using var connection = database.OpenForReading();
        var rows = connection.Query<(long Seq, string Outcome, string? Ruled, long IsAnotherBall, long IsChanged)>(
            $"""
            SELECT i.seq, i.outcome, {RulingIndex.Decided("i")}, {SpotCheckIndex.IsOpen("i")},
                   i.number IN (SELECT a.number FROM freeze_alert_index a WHERE a.event = @id)
            FROM inspection_index i
            WHERE i.event = @id AND i.superseded_by IS NULL
              AND (i.outcome <> 'pass' OR EXISTS (SELECT 1 FROM ruling_index d WHERE d.inspection_seq = i.seq)
                OR i.number IN (SELECT a.number FROM freeze_alert_index a WHERE a.event = @id)
                OR i.number IN (SELECT s.number FROM spot_check_index s WHERE s.event = @id AND s.differs <> ''))
            ORDER BY i.seq
            """,
            new { id = held.Id });
        var groups = rows.ToLookup(
            row => OpenGroup.Of(
                row.Ruled is null ? null : Decisions.Words[row.Ruled], VerdictJson.Outcomes[row.Outcome], row.IsAnotherBall == 1,
                row.IsChanged == 1),
            row => row.Seq);
        return new OpenList(
            [.. OpenGroup.All.SelectMany(group => groups[group].Select(seq => (group, seq)))],
            connection.ExecuteScalar<bool>("SELECT EXISTS (SELECT 1 FROM inspection_index WHERE event = @id)", new { id = held.Id }));
    }

    /// <summary>How many inspections of an event a spot check or an alert has put in doubt.</summary>
    public int Doubted(Event held)
    {
        using var connection = database.OpenForReading();
        return connection.ExecuteScalar<int>(
            $"""
            SELECT count(*) FROM (SELECT number FROM spot_check_index WHERE event = @id AND differs <> ''
                                  UNION SELECT number FROM freeze_alert_index WHERE event = @id) d
            JOIN inspection_index i ON i.number = d.number
            WHERE i.superseded_by IS NULL AND ({SpotCheckIndex.IsOpen("i")}
              OR (EXISTS (SELECT 1 FROM freeze_alert_index a WHERE a.number = i.number) AND {RulingIndex.Decided("i")} IS NULL))
            """,
            new { id = held.Id });
    }

    /// <summary>Reads what is open of each of some inspections of such a list.</summary>
    public IReadOnlyList<OpenItem> Read(IEnumerable<(OpenGroup Group, long Seq)> places)
    {
        using var connection = database.OpenForReading();
        return [.. places.Select(place => Item(
            place.Group,
            InspectionBody.Read(Register.BodyOf(connection, place.Seq)!),
            connection))];
    }

    private OpenItem Item(OpenGroup group, Inspection inspection, DbConnection connection)
    {
        var ruling = RulingIndex.Of(connection, inspection.Number.ToString()) is [.., var last] ? last : null;
        var (points, settles) = group == OpenGroup.AnotherBall || group == OpenGroup.Changed
            ? ([.. Doubts(connection, inspection.Number.ToString(), ruling), .. Points(inspection)],
                $"Look at the ball; then {(inspection.Verdict.Outcome == Outcome.Fail ? "" : "accept it, ")}order a second measurement, "
                    + "or withdraw the record.")
            : group == OpenGroup.OnCondition
            ? ([ruling?.Condition is { } condition ? $"Condition: {condition}" : "The condition was struck.", .. Points(inspection)],
                "Measure the ball again, under the number it has.")
            : group == OpenGroup.ToMeasureAgain
            ? ([ruling?.Reason ?? "The reason was struck."],
                ruling?.Decision == Decision.Remeasure ? "Measure the ball again, on another instrument." : "Measure the ball again.")
            : (Points(inspection), group == OpenGroup.Undecided
                ? Settling(inspection)
                : "Measure the ball again after work on it, or leave it out.");
        return new OpenItem(
            group,
            inspection.Number.ToString(),
            inspection.Entry,
            people.NameOf(inspection.Bowler.Person),
            $"{inspection.Sheet.Ball?.Maker} {inspection.Sheet.Ball?.Model} {inspection.Sheet.Ball?.Serial}".Trim() is { Length: > 0 } ball
                ? ball : "not recorded",
            VerdictJson.WordOf(inspection.Verdict.Outcome),
            points,
            settles);
    }

    private IEnumerable<string> Doubts(DbConnection connection, string number, Ruling? ruling) =>
    [
        .. SpotCheckIndex.Of(connection, number).Where(check => !check.IsTheBall && check.Seq > (ruling?.Seq ?? 0))
            .Select(check => check.Point(people.NameOf(check.By))),
        .. ruling is null ? FreezeAlert.Of(connection, number)?.Changes.Select(change => change.Sentence) ?? [] : [],
    ];

    // Missing measurements are one point, however many rules need them.
    private static List<string> Points(Inspection inspection)
    {
        var against = inspection.Verdict.Findings.Where(finding => finding.Outcome != Outcome.Pass).ToList();
        var missing = against.Where(IsMissing).Select(finding => Explanation.RuleTitle(finding.Rule).ToLowerInvariant()).Distinct()
            .ToList();
        return
        [
            .. against.Where(finding => !IsMissing(finding)).OrderBy(finding => finding.Outcome == Outcome.Fail ? 0 : 1)
                .Select(finding => $"{Explanation.RuleTitle(finding.Rule)}: {finding.Reason}"),
            .. missing.Count == 0 ? Array.Empty<string>() : [$"Not measured: {string.Join(", ", missing)}."],
            .. inspection.Verdict.Cause == HoldCause.NoEdition ? ["No edition of the rules is in force on the day of play."]
                : Array.Empty<string>(),
        ];
    }

    private static bool IsMissing(Finding finding) => finding.Cause == HoldCause.NotMeasured && !IsUnlisted(finding);

    // No measurement is missing here: the ball was not found on a list, or not looked up.
    private static bool IsUnlisted(Finding finding) => finding is { Cause: HoldCause.NotMeasured, Path: "ball.listed" };

    private static string Settling(Inspection inspection)
    {
        var causes = inspection.Verdict.Findings.Where(finding => finding.Outcome == Outcome.Hold).Select(finding => finding.Cause)
            .ToHashSet();
        var ways = new List<string>();
        if (inspection.Verdict.Findings.Any(IsUnlisted))
        {
            ways.Add("look the ball up on the list of approved balls");
        }

        if (inspection.Verdict.Findings.Any(IsMissing))
        {
            ways.Add("measure what is missing");
        }

        if (causes.Contains(HoldCause.LimitUnconfirmed))
        {
            ways.Add("confirm the limit from the published text, or rule");
        }

        if (causes.Contains(HoldCause.NearLimit))
        {
            ways.Add("measure again, or rule");
        }

        if (causes.Overlaps([HoldCause.Discretion, HoldCause.RuleError]) || ways.Count == 0)
        {
            ways.Add("the director rules");
        }

        var sentence = string.Join("; ", ways);
        return char.ToUpperInvariant(sentence[0]) + sentence[1..] + ".";
    }
}
