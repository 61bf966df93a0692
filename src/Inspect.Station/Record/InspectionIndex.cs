using System.Globalization;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>The index of inspections. It is made from the register's entries alone, so it can be rebuilt at any time.</summary>
/// <remarks><see cref="IndexedInspection"/> says which members of an entry's body it reads.</remarks>
public static class InspectionIndex
{
    /// <summary>The index.</summary>
    public static readonly RegisterIndex Index = new(
        "inspections", InspectionBody.Kind, ["inspection_model", "inspection_instrument", "inspection_rule", "inspection_index"], Add);

    /// <summary>The running number for the next inspection of an event.</summary>
    public static long NextRunning(WriteTransaction transaction, string eventId) => transaction.Connection.QuerySingle<long>(
        "SELECT coalesce(max(running), 0) + 1 FROM inspection_index WHERE event = @eventId", new { eventId }, transaction.Transaction);

    private static void Add(WriteTransaction transaction, RegisterEntry entry)
    {
        var inspection = entry.As(IndexedInspection.Of);
        transaction.Connection.Execute(
            """
            INSERT INTO inspection_index (seq, number, event, running, entry, code, ball, serial, serial_folded, play, outcome, edition,
              by_person, at, supersedes)
            VALUES (@Seq, @Number, @Event, @running, @Entry, @Code, @Ball, @Serial, @serialFolded, @Play, @Outcome, @Edition,
              @By, @At, @Supersedes)
            """,
            new
            {
                entry.Seq,
                inspection.Number,
                inspection.Event,
                running = RunningOf(entry.Seq, inspection.Number),
                inspection.Entry,
                inspection.Code,
                inspection.Ball,
                inspection.Serial,
                serialFolded = inspection.Serial is { } serial ? SerialLookAlikes.Fold(serial) : null,
                inspection.Play,
                inspection.Outcome,
                inspection.Edition,
                inspection.By,
                inspection.At,
                inspection.Supersedes,
            },
            transaction.Transaction);
        if (inspection.Supersedes is not null)
        {
            transaction.Connection.Execute(
                "UPDATE inspection_index SET superseded_by = @Number WHERE number = @Supersedes",
                new { inspection.Number, inspection.Supersedes },
                transaction.Transaction);
        }

        foreach (var (rule, outcome) in inspection.Rules)
        {
            transaction.Connection.Execute(
                "INSERT INTO inspection_rule (rule, outcome, seq, event, by_person, verdict) VALUES (@rule, @outcome, @Seq, @Event, "
                + "@By, @verdict)",
                new { rule, outcome, entry.Seq, inspection.Event, inspection.By, verdict = inspection.Outcome },
                transaction.Transaction);
        }

        foreach (var instrument in inspection.Instruments)
        {
            transaction.Connection.Execute(
                "INSERT INTO inspection_instrument (instrument, seq) VALUES (@instrument, @Seq) ON CONFLICT DO NOTHING",
                new { instrument, entry.Seq },
                transaction.Transaction);
        }

        if ($"{inspection.Maker} {inspection.Model}".Trim(' ') is { Length: > 0 } name)
        {
            transaction.Connection.Execute(
                "INSERT INTO inspection_model (name, seq) VALUES (@name, @Seq)", new { name, entry.Seq }, transaction.Transaction);
        }
    }

    // EVENT-0417: the part after the last hyphen.
    private static long RunningOf(long seq, string number) =>
        long.TryParse(number[(number.LastIndexOf('-') + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out var running)
            ? running
            : throw new InvalidDataException($"Entry {seq} of the register has '{number}', which does not end in a running number.");
}
