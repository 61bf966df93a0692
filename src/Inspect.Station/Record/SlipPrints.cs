using System.Data.Common;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>When the slip of an inspection was first printed. From then on it may be in a bowler's hand.</summary>
public sealed class SlipPrints(Database database, WriteGate gate, TimeProvider time)
{
    /// <summary>Notes that a slip is about to leave the station. Only the first time is kept.</summary>
    public async Task Note(long seq, PersonId by)
    {
        if (!IsPrinted(seq))
        {
            await gate.Run(write => write.Connection.Execute(
                "INSERT INTO slip_print (seq, at, by_person) VALUES (@seq, @at, @by) ON CONFLICT DO NOTHING",
                new { seq, at = UtcText.Of(time.GetUtcNow()), by = by.ToString() },
                write.Transaction));
        }
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
