using System.Data.Common;
using System.Text.Json;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Advice;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>An alert that a ball reads otherwise than its slip although it was not to be changed any more, from the register.</summary>
/// <param name="Seq">Its entry in the register.</param>
/// <param name="Inspection">The inspection whose readings differ.</param>
/// <param name="Slip">The passed inspection that they differ from.</param>
/// <param name="Changes">What differs.</param>
/// <param name="At">When.</param>
public sealed record FreezeAlert(
    long Seq, string Inspection, string Slip, IReadOnlyList<FrozenChange> Changes, DateTimeOffset At)
{
    /// <summary>The kind of entry.</summary>
    public const string Kind = "freeze-alert";

    /// <summary>The index.</summary>
    public static readonly RegisterIndex Index = new("alerts after a freeze", Kind, ["freeze_alert_index"], Add, RegisterIndex.HasRow);

    /// <summary>The alert of an inspection; null when there is none.</summary>
    public static FreezeAlert? Of(DbConnection connection, string number, DbTransaction? transaction = null) =>
        Register.Bodies(
            connection,
            $"SELECT {Register.Entry("r")} FROM freeze_alert_index a JOIN register_entry r ON r.seq = a.seq WHERE a.number = @number",
            new { number }, transaction).SingleOrDefault() is { Body: { } body } row ? Read(row.Seq, body) : null;

    /// <summary>Appends an alert when the inspection just recorded is of a ball that was frozen, and differs from its slip.</summary>
    internal static void Recorded(WriteTransaction write, RecordedJustNow recorded)
    {
        if (!recorded.IsFrozen || PassedBefore(write, recorded.Inspection) is not { } slip)
        {
            return;
        }

        var (now, at) = (recorded.Inspection, recorded.At);
        var changes = FrozenChanges.Between(slip.Sheet, slip.Terms, now.Sheet, now.Terms);
        if (changes.Count == 0)
        {
            return;
        }

        Register.Append(write, Kind, 1, new JsonObject
        {
            ["inspection"] = now.Number.ToString(),
            ["slip"] = slip.Number.ToString(),
            ["event"] = now.Event,
            ["entry"] = now.Entry,
            ["ball"] = now.Ball,
            ["changes"] = new JsonArray([.. changes.Select(Written)]),
            ["by"] = new JsonObject { ["person"] = now.By.Person.ToString(), ["name"] = now.By.Hash },
            ["at"] = UtcText.Of(at),
        });
    }

    // The latest passed inspection of the same ball with the same grip that was not withdrawn. A ball that was recorded under a new id is
    // known by its serial, among the bowler's own.
    private static Inspection? PassedBefore(WriteTransaction write, Inspection now)
    {
        var sql = $"""
            SELECT {Register.Entry("r")} FROM inspection_index i JOIN register_entry r ON r.seq = i.seq
            WHERE i.event = @eventId AND (i.ball = @Ball OR i.entry IN ({InspectionLookup.Numbers}))
              AND i.number <> @number AND i.outcome = 'pass' AND {RulingIndex.Counts("i")}
            ORDER BY i.seq DESC
            """;
        var serial = SerialLookAlikes.Fold(now.Sheet.Ball?.Serial ?? "");
        return Register.Bodies(
            write.Connection, sql, new { now.Ball, eventId = now.Event, entry = now.Entry, number = now.Number.ToString() },
            write.Transaction)
            .Select(entry => InspectionBody.Read(entry.Body))
            .FirstOrDefault(slip => GripWords.Of(slip.Sheet.Grip) == GripWords.Of(now.Sheet.Grip)
                && (slip.Ball == now.Ball || (serial.Length > 0 && SerialLookAlikes.Fold(slip.Sheet.Ball?.Serial ?? "") == serial)));
    }

    private static JsonObject Written(FrozenChange change)
    {
        var written = new JsonObject { ["what"] = change.What };
        foreach (var (name, text) in new[]
        {
            ("then", change.Then), ("now", change.Now), ("apart", change.Apart), ("allowed", change.Allowed),
            ("assumed", change.IsAssumed ? "yes" : null),
        })
        {
            if (text is not null)
            {
                written[name] = text;
            }
        }

        return written;
    }

    private static FreezeAlert Read(long seq, byte[] body)
    {
        using var entry = RegisterEntry.Read(seq, body);
        return new FreezeAlert(
            seq, entry.Text("inspection"), entry.Text("slip"), [.. entry.ListAt("changes").Select(Change)],
            UtcText.Parse(entry.Text("at")));

        static FrozenChange Change(JsonElement change) => new(
            RegisterEntry.TextIn(change, "what")!, RegisterEntry.TextIn(change, "then"), RegisterEntry.TextIn(change, "now"),
            RegisterEntry.TextIn(change, "apart"), RegisterEntry.TextIn(change, "allowed"),
            RegisterEntry.TextIn(change, "assumed") is not null);
    }

    private static void Add(WriteTransaction write, RegisterEntry alert) => write.Connection.Execute(
        "INSERT INTO freeze_alert_index (seq, number, event) VALUES (@Seq, @number, @eventId)",
        new { alert.Seq, number = alert.Text("inspection"), eventId = alert.Text("event") },
        write.Transaction);
}
