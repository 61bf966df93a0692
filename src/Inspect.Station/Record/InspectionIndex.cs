using System.Globalization;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>The index of inspections. It is made from the register's entries alone, so it can be rebuilt at any time.</summary>
/// <remarks>
/// Of an entry's body it reads <c>number</c>, <c>code</c>, <c>event</c>, <c>entry</c>, <c>at</c>, <c>by.person</c>, <c>edition.id</c>,
/// <c>supersedes</c>, <c>ball</c> (an opaque id), <c>sheet.play</c>, <c>sheet.ball</c>'s serial, maker and model, <c>verdict.outcome</c>,
/// the rule and outcome of each of <c>verdict.findings</c>, and the instrument of each of <c>observations</c>.
/// </remarks>
public static class InspectionIndex
{
    /// <summary>The index.</summary>
    public static readonly RegisterIndex Index = new(
        "inspections", InspectionBody.Kind, ["inspection_model", "inspection_instrument", "inspection_rule", "inspection_index"], Add);

    /// <summary>The running number for the next inspection of an event.</summary>
    public static long NextRunning(WriteTransaction transaction, string eventId) => transaction.Connection.QuerySingle<long>(
        "SELECT coalesce(max(running), 0) + 1 FROM inspection_index WHERE event = @eventId", new { eventId }, transaction.Transaction);

    private static void Add(WriteTransaction transaction, RegisterEntry inspection)
    {
        var number = inspection.Text("number");
        var serial = inspection.TextOrNull("sheet", "ball", "serial");
        var supersedes = inspection.TextOrNull("supersedes");
        transaction.Connection.Execute(
            """
            INSERT INTO inspection_index (seq, number, event, running, entry, code, ball, serial, serial_folded, play, outcome, edition,
              by_person, at, supersedes)
            VALUES (@seq, @number, @eventId, @running, @entry, @code, @ball, @serial, @serialFolded, @play, @outcome, @edition,
              @byPerson, @at, @supersedes)
            """,
            new
            {
                seq = inspection.Seq,
                number,
                eventId = inspection.Text("event"),
                running = RunningOf(inspection.Seq, number),
                entry = inspection.Text("entry"),
                code = inspection.Text("code"),
                ball = inspection.TextOrNull("ball"),
                serial,
                serialFolded = serial is null ? null : SerialLookAlikes.Fold(serial),
                play = inspection.Text("sheet", "play"),
                outcome = inspection.Text("verdict", "outcome"),
                edition = inspection.TextOrNull("edition", "id"),
                byPerson = inspection.Text("by", "person"),
                at = inspection.Text("at"),
                supersedes,
            },
            transaction.Transaction);
        if (supersedes is not null)
        {
            transaction.Connection.Execute(
                "UPDATE inspection_index SET superseded_by = @number WHERE number = @supersedes",
                new { number, supersedes },
                transaction.Transaction);
        }

        AddRules(transaction, inspection);
        AddInstruments(transaction, inspection);
        AddModel(transaction, inspection);
    }

    private static void AddRules(WriteTransaction transaction, RegisterEntry inspection)
    {
        var rules = inspection.ListAt("verdict", "findings")
            .Select(finding => (Rule: RegisterEntry.TextIn(finding, "rule"), Outcome: RegisterEntry.TextIn(finding, "outcome")))
            .Where(finding => finding is { Rule: not null, Outcome: "fail" or "hold" })
            .GroupBy(finding => finding.Rule)
            // A rule with a finding for each hole is counted once, however many holes fail it.
            .Select(rule => new
            {
                seq = inspection.Seq,
                rule = rule.Key,
                outcome = rule.Any(finding => finding.Outcome == "fail") ? "fail" : "hold",
                eventId = inspection.Text("event"),
                byPerson = inspection.Text("by", "person"),
                verdict = inspection.Text("verdict", "outcome"),
            });
        transaction.Connection.Execute(
            "INSERT INTO inspection_rule (rule, outcome, seq, event, by_person, verdict) VALUES (@rule, @outcome, @seq, @eventId, "
            + "@byPerson, @verdict)",
            rules.ToList(),
            transaction.Transaction);
    }

    private static void AddInstruments(WriteTransaction transaction, RegisterEntry inspection)
    {
        var instruments = inspection.ListAt("observations")
            .Select(observation => RegisterEntry.TextIn(observation, "instrument")).OfType<string>().Distinct(StringComparer.Ordinal)
            .Select(instrument => new { instrument, seq = inspection.Seq });
        transaction.Connection.Execute(
            "INSERT INTO inspection_instrument (instrument, seq) VALUES (@instrument, @seq) ON CONFLICT DO NOTHING",
            instruments.ToList(),
            transaction.Transaction);
    }

    private static void AddModel(WriteTransaction transaction, RegisterEntry inspection)
    {
        var name = $"{inspection.TextOrNull("sheet", "ball", "maker")} {inspection.TextOrNull("sheet", "ball", "model")}".Trim(' ');
        if (name.Length > 0)
        {
            transaction.Connection.Execute("INSERT INTO inspection_model (name, seq) VALUES (@name, @seq)",
                new { name, seq = inspection.Seq }, transaction.Transaction);
        }
    }

    // EVENT-0417: the part after the last hyphen.
    private static long RunningOf(long seq, string number) =>
        long.TryParse(number[(number.LastIndexOf('-') + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out var running)
            ? running
            : throw new InvalidDataException($"Entry {seq} of the register has '{number}', which does not end in a running number.");
}
