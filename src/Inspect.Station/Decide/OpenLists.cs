using Dapper;
using Inspect.Rules.Judging;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.Decide;

/// <summary>One inspection with open points.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Entry">The bowler's number.</param>
/// <param name="Bowler">The bowler's name; null when struck.</param>
/// <param name="Ball">Maker, model and serial of the ball.</param>
/// <param name="Outcome">The measured verdict.</param>
/// <param name="Points">The open points, a sentence each.</param>
/// <param name="Settles">What would settle it.</param>
public sealed record OpenItem(
    string Number, string Entry, string? Bowler, string Ball, string Outcome, IReadOnlyList<string> Points, string Settles);

/// <summary>Everything of an event that is not settled, most urgent first.</summary>
/// <param name="OnCondition">Balls in play that have to be measured again.</param>
/// <param name="ToMeasureAgain">Balls called back to the table.</param>
/// <param name="Undecided">Balls whose verdict is open.</param>
/// <param name="Failed">Balls that failed and were not measured again.</param>
public sealed record OpenList(
    IReadOnlyList<OpenItem> OnCondition, IReadOnlyList<OpenItem> ToMeasureAgain, IReadOnlyList<OpenItem> Undecided,
    IReadOnlyList<OpenItem> Failed)
{
    /// <summary>How many inspections are on it.</summary>
    public int Count => OnCondition.Count + ToMeasureAgain.Count + Undecided.Count + Failed.Count;
}

/// <summary>Makes the list of what is open at an event, from the register.</summary>
public sealed class OpenLists(Database database, People people)
{
    /// <summary>What is open at an event.</summary>
    public OpenList Of(Event held)
    {
        using var connection = database.OpenForReading();
        var rulings = RulingIndex.InForceAt(connection, held.Id).ToDictionary(ruling => ruling.Inspection.ToString());
        var rows = connection.Query<OpenRow>(
            """
            SELECT i.number AS Number, i.outcome AS Outcome, r.body AS Body
            FROM inspection_index i JOIN register_entry r ON r.seq = i.seq
            WHERE i.event = @id AND i.superseded_by IS NULL
              AND (i.outcome <> 'pass' OR EXISTS (SELECT 1 FROM ruling_index d WHERE d.number = i.number))
            ORDER BY i.seq
            """,
            new { id = held.Id },
            buffered: false);
        var (onCondition, again, undecided, failed) = (
            new List<OpenItem>(), new List<OpenItem>(), new List<OpenItem>(), new List<OpenItem>());
        foreach (var row in rows)
        {
            var ruling = rulings.GetValueOrDefault(row.Number);
            var inspection = InspectionBody.Read(row.Body);
            switch (ruling?.Decision, inspection.Verdict.Outcome)
            {
                case (Decision.Accept or Decision.Withdraw or Decision.Undo, _):
                    break;
                case (Decision.Allow, _):
                    onCondition.Add(Item(
                        inspection, [ruling.Condition is { } condition ? $"Condition: {condition}" : "The condition was struck.",
                            .. Points(inspection)], "Measure the ball again, under the number it has."));
                    break;
                case (Decision.Remeasure, _):
                    again.Add(Item(inspection, [ruling.Reason ?? "The reason was struck."],
                        "Measure the ball again, on another instrument."));
                    break;
                case (Decision.Recall, _):
                    again.Add(Item(inspection, [ruling.Reason ?? "The reason was struck."], "Measure the ball again."));
                    break;
                case (_, Outcome.Hold):
                    undecided.Add(Item(inspection, Points(inspection), Settling(inspection)));
                    break;
                case (_, Outcome.Fail):
                    failed.Add(Item(inspection, Points(inspection), "Measure the ball again after work on it, or leave it out."));
                    break;
                default:
                    break;
            }
        }

        return new OpenList(onCondition, again, undecided, failed);
    }

    private OpenItem Item(Inspection inspection, IReadOnlyList<string> points, string settles) => new(
        inspection.Number.ToString(),
        inspection.Entry,
        people.NameOf(inspection.Bowler.Person),
        $"{inspection.Sheet.Ball?.Maker} {inspection.Sheet.Ball?.Model} {inspection.Sheet.Ball?.Serial}".Trim() is { Length: > 0 } ball
            ? ball : "not recorded",
        VerdictJson.WordOf(inspection.Verdict.Outcome),
        points,
        settles);

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

    private sealed record OpenRow(string Number, string Outcome, byte[] Body);
}
