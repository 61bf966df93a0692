using System.Data.Common;
using System.Globalization;
using System.Text;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>The index of inspections. It is made from the register's entries alone, so it can be rebuilt at any time.</summary>
/// <remarks><see cref="IndexedInspection"/> says which members of an entry's body it reads.</remarks>
public static class InspectionIndex
{
    /// <summary>The index.</summary>
    public static readonly RegisterIndex Index = new(
        "inspections", InspectionBody.Kind, ["inspection_model", "inspection_instrument", "inspection_rule", "inspection_index"], Add,
        Holds);

    /// <summary>The running number for the next inspection of an event: one more than the last that the register has of it, and than what
    /// accepted losses leave out after that.</summary>
    /// <remarks>The register is read backwards once for each event, to the event's last inspection, or to where it was found in order with
    /// its indexes since the start; then the number is kept with the turn.</remarks>
    public static long NextRunning(WriteTransaction transaction, string eventId)
    {
        if (!transaction.Numbers.TryGetValue(eventId, out var last))
        {
            var sound = transaction.SoundUpTo;
            var (indexed, at) = transaction.Connection.QuerySingle<(long, long)>(
                "SELECT coalesce(max(running), 0), coalesce(max(seq), 0) FROM inspection_index WHERE event = @eventId", new { eventId },
                transaction.Transaction);
            var (recorded, leftOut) = LastIn(
                Register.Backwards(transaction, [InspectionBody.Kind, RegisterLoss.Kind], after: sound), eventId);
            if (recorded == 0)
            {
                leftOut += RegisterLoss.GapBetween(transaction, at, sound);
            }

            last = Math.Max(indexed, recorded) + leftOut;
        }

        transaction.Numbers = transaction.Numbers.SetItem(eventId, last + 1);
        return last + 1;
    }

    private static (long Last, long LeftOut) LastIn(
        IEnumerable<(long Seq, byte[] Body, byte[] Leaf, string Kind)> backwards, string eventId)
    {
        var (named, leftOut) = (Encoding.UTF8.GetBytes($"\"event\":\"{eventId}\""), 0L);
        foreach (var row in backwards.Where(row => row.Kind == RegisterLoss.Kind || row.Body.AsSpan().IndexOf(named) >= 0))
        {
            if (!Register.IsWhole(row.Body, row.Leaf))
            {
                // A damaged entry may have used up a number.
                leftOut++;
                continue;
            }

            using var entry = RegisterEntry.Read(row.Seq, row.Body);
            if (row.Kind == RegisterLoss.Kind)
            {
                leftOut += entry.Body.GetProperty("gap").GetInt64();
            }
            else if (entry.Text("event") == eventId)
            {
                return (RunningOf(row.Seq, entry.Text("number")), leftOut);
            }
        }

        return (0, leftOut);
    }

    private static bool Holds(RegisterIndex index, DbConnection connection, RegisterEntry entry)
    {
        var inspection = entry.As(IndexedInspection.Of);
        var row = connection.QuerySingleOrDefault<Row>(
            """
            SELECT number AS Number, event AS Event, running AS Running, entry AS Entry, code AS Code, ball AS Ball, serial AS Serial,
              serial_folded AS SerialFolded, play AS Play, outcome AS Outcome, edition AS Edition, by_person AS ByPerson, at AS At,
              supersedes AS Supersedes, superseded_by AS SupersededBy
            FROM inspection_index WHERE seq = @Seq
            """,
            new { entry.Seq });
        return row == new Row(
            inspection.Number, inspection.Event, RunningOf(entry.Seq, inspection.Number), inspection.Entry, inspection.Code,
            inspection.Ball, inspection.Serial, inspection.Serial is { } serial ? SerialLookAlikes.Fold(serial) : null,
            inspection.Play, inspection.Outcome, inspection.Edition, inspection.By, inspection.At, inspection.Supersedes, row?.SupersededBy)
            && (row.SupersededBy is null || connection.ExecuteScalar<string?>(
                "SELECT supersedes FROM inspection_index WHERE number = @SupersededBy", new { row.SupersededBy }) == row.Number)
            && (inspection.Supersedes is null || connection.ExecuteScalar<string?>(
                "SELECT superseded_by FROM inspection_index WHERE number = @Supersedes", new { inspection.Supersedes })
                    == inspection.Number)
            && connection.Query<(string, string)>("SELECT rule, outcome FROM inspection_rule WHERE seq = @Seq", new { entry.Seq }).Order()
                .SequenceEqual(inspection.Rules.Order());
    }

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

    private sealed record Row(
        string Number, string Event, long Running, string Entry, string Code, string? Ball, string? Serial, string? SerialFolded,
        string Play, string Outcome, string? Edition, string ByPerson, string At, string? Supersedes, string? SupersededBy);

    // EVENT-0417: the part after the last hyphen.
    private static long RunningOf(long seq, string number) =>
        long.TryParse(number[(number.LastIndexOf('-') + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out var running)
            ? running
            : throw new InvalidDataException($"Entry {seq} of the register has '{number}', which does not end in a running number.");
}
