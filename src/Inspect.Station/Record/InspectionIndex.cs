using System.Globalization;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>The index of inspections: rows to find them by, made from the register's entries alone, so that it can be made again at any
/// time.</summary>
/// <remarks>
/// Of an entry's body it reads <c>number</c>, <c>code</c>, <c>event</c>, <c>entry</c>, <c>at</c>, <c>by.person</c>, <c>edition.id</c>,
/// <c>supersedes</c>, <c>ball</c> (an opaque id), <c>sheet.play</c>, <c>sheet.ball</c>'s serial, maker and model, <c>verdict.outcome</c>, the rule and
/// outcome of each of <c>verdict.findings</c>, and the instrument of each of <c>observations</c>.
/// </remarks>
public static class InspectionIndex
{
    /// <summary>Adds an inspection that was just appended, in the same turn at the gate.</summary>
    /// <exception cref="InvalidDataException">The body lacks a member that the index needs.</exception>
    public static void Add(WriteTransaction transaction, EntryPosition entry) => Add(transaction, entry.Seq, entry.Body);

    /// <summary>The running number that the next inspection of an event takes.</summary>
    public static long NextRunning(WriteTransaction transaction, string eventName) => transaction.Connection.QuerySingle<long>(
        "SELECT coalesce(max(running), 0) + 1 FROM inspection_index WHERE event = @eventName", new { eventName }, transaction.Transaction);

    /// <summary>Throws the index away and makes it again from the register.</summary>
    public static void Rebuild(WriteTransaction transaction)
    {
        transaction.Connection.Execute("DELETE FROM inspection_model; DELETE FROM inspection_instrument; DELETE FROM inspection_rule; DELETE FROM inspection_index;", null, transaction.Transaction);
        foreach (var (seq, body) in Register.OfKind(transaction, InspectionBody.Kind))
        {
            Add(transaction, seq, body);
        }
    }

    private static void Add(WriteTransaction transaction, long seq, byte[] body)
    {
        if (!CanonicalJson.TryParse(body, out var parsed) || parsed is not JsonObject inspection)
        {
            throw new InvalidDataException($"Entry {seq} of the register is not canonical JSON.");
        }

        var number = Text(seq, inspection, "number");
        var serial = TextOrNull(inspection, "sheet", "ball", "serial");
        var supersedes = TextOrNull(inspection, "supersedes");
        transaction.Connection.Execute(
            """
            INSERT INTO inspection_index (seq, number, event, running, entry, code, ball, serial, serial_folded, play, outcome, edition,
              by_person, at, supersedes)
            VALUES (@seq, @number, @eventName, @running, @entry, @code, @ball, @serial, @serialFolded, @play, @outcome, @edition,
              @byPerson, @at, @supersedes)
            """,
            new
            {
                seq,
                number,
                eventName = Text(seq, inspection, "event"),
                running = RunningOf(seq, number),
                entry = Text(seq, inspection, "entry"),
                code = Text(seq, inspection, "code"),
                ball = TextOrNull(inspection, "ball"),
                serial,
                serialFolded = serial is null ? null : SerialLookAlikes.Fold(serial),
                play = Text(seq, inspection, "sheet", "play"),
                outcome = Text(seq, inspection, "verdict", "outcome"),
                edition = TextOrNull(inspection, "edition", "id"),
                byPerson = Text(seq, inspection, "by", "person"),
                at = Text(seq, inspection, "at"),
                supersedes,
            },
            transaction.Transaction);
        transaction.Connection.Execute(
            "UPDATE inspection_index SET superseded_by = @number WHERE number = @supersedes",
            new { number, supersedes },
            transaction.Transaction);
        AddRules(transaction, seq, inspection);
        AddInstruments(transaction, seq, inspection);
        AddModel(transaction, seq, inspection);
    }

    private static void AddRules(WriteTransaction transaction, long seq, JsonObject inspection)
    {
        var findings = inspection["verdict"]?["findings"] as JsonArray ?? [];
        var rules = findings
            .Select(finding => (Rule: TextOrNull(finding, "rule"), Outcome: TextOrNull(finding, "outcome")))
            .Where(finding => finding is { Rule: not null, Outcome: "fail" or "hold" })
            .GroupBy(finding => finding.Rule)
            // A rule with a finding for each hole is failed once, however many holes fail it.
            .Select(rule => new
            {
                seq,
                rule = rule.Key,
                outcome = rule.Any(finding => finding.Outcome == "fail") ? "fail" : "hold",
                eventName = Text(seq, inspection, "event"),
                byPerson = Text(seq, inspection, "by", "person"),
                verdict = Text(seq, inspection, "verdict", "outcome"),
            });
        transaction.Connection.Execute(
            "INSERT INTO inspection_rule (rule, outcome, seq, event, by_person, verdict) VALUES (@rule, @outcome, @seq, @eventName, @byPerson, @verdict)",
            rules.ToList(),
            transaction.Transaction);
    }

    private static void AddInstruments(WriteTransaction transaction, long seq, JsonObject inspection)
    {
        var instruments = (inspection["observations"] as JsonArray ?? [])
            .Select(observation => TextOrNull(observation, "instrument")).OfType<string>().Distinct(StringComparer.Ordinal)
            .Select(instrument => new { instrument, seq });
        transaction.Connection.Execute(
            "INSERT INTO inspection_instrument (instrument, seq) VALUES (@instrument, @seq) ON CONFLICT DO NOTHING",
            instruments.ToList(),
            transaction.Transaction);
    }

    private static void AddModel(WriteTransaction transaction, long seq, JsonObject inspection)
    {
        var name = $"{TextOrNull(inspection, "sheet", "ball", "maker")} {TextOrNull(inspection, "sheet", "ball", "model")}".Trim(' ');
        if (name.Length > 0)
        {
            transaction.Connection.Execute("INSERT INTO inspection_model (name, seq) VALUES (@name, @seq)", new { name, seq }, transaction.Transaction);
        }
    }

    // EVENT-0417: what stands behind the last hyphen.
    private static long RunningOf(long seq, string number) =>
        long.TryParse(number[(number.LastIndexOf('-') + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out var running)
            ? running
            : throw new InvalidDataException($"Entry {seq} of the register has '{number}', which ends in no running number.");

    private static string Text(long seq, JsonNode inspection, params string[] path) =>
        TextOrNull(inspection, path)
        ?? throw new InvalidDataException($"Entry {seq} of the register has no '{string.Join('.', path)}', by which it would be found.");

    private static string? TextOrNull(JsonNode? node, params string[] path)
    {
        foreach (var name in path)
        {
            node = (node as JsonObject)?[name];
        }

        return node is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;
    }
}
