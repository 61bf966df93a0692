using System.Data.Common;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>A slip that was printed.</summary>
/// <param name="At">When.</param>
/// <param name="By">By whom; null once struck.</param>
public sealed record SlipPrint(DateTimeOffset At, string? By);

/// <summary>When the slip of an inspection was printed, each time. From the first on it may be in a bowler's hand.</summary>
public sealed class SlipPrints(Database database, WriteGate gate, TimeProvider time)
{
    /// <summary>Notes that a slip is about to leave the station.</summary>
    /// <returns>When it was first printed, and now; null when this is the first time.</returns>
    public Task<(DateTimeOffset First, DateTimeOffset Now)?> Note(long seq, PersonId by) =>
        gate.Run<(DateTimeOffset, DateTimeOffset)?>(write =>
        {
            var now = time.GetUtcNow();
            var first = write.Connection.ExecuteScalar<string?>(
                "SELECT at FROM slip_print WHERE seq = @seq", new { seq }, write.Transaction);
            var table = first is null ? "slip_print" : "slip_again";
            write.Connection.Execute(
                $"INSERT INTO {table} (seq, at, by_person) VALUES (@seq, @at, @by) ON CONFLICT DO NOTHING",
                new { seq, at = UtcText.Of(now), by = by.ToString() },
                write.Transaction);
            return first is null ? null : (UtcText.Parse(first), now);
        });

    /// <summary>Each time that the slip of an inspection was printed, oldest first.</summary>
    public IReadOnlyList<SlipPrint> Of(long seq)
    {
        using var connection = database.OpenForReading();
        return [.. connection.Query<(string At, string? By)>(
            """
            SELECT t.at, p.name FROM (SELECT seq, at, by_person FROM slip_print UNION ALL SELECT seq, at, by_person FROM slip_again) t
            JOIN person p ON p.id = t.by_person WHERE t.seq = @seq ORDER BY t.at
            """, new { seq }).Select(row => new SlipPrint(UtcText.Parse(row.At), row.By))];
    }

    /// <summary>Whether the slip of an inspection was printed.</summary>
    public bool IsPrinted(long seq)
    {
        using var connection = database.OpenForReading();
        return IsPrinted(connection, null, seq);
    }

    /// <summary>The same from a connection that is open, within a transaction if one is given.</summary>
    public static bool IsPrinted(DbConnection connection, DbTransaction? transaction, long seq) =>
        connection.ExecuteScalar<long>("SELECT count(*) FROM slip_print WHERE seq = @seq", new { seq }, transaction) > 0;
}
