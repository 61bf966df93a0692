using System.Data.Common;
using Dapper;

namespace Inspect.Station.Record;

/// <summary>Points out another ball of the event with a serial that looks like this one's. It never refuses anything.</summary>
public static class LookAlikes
{
    /// <summary>One sentence about both balls, or null when there is no such ball.</summary>
    /// <param name="connection">The connection to read earlier inspections.</param>
    /// <param name="eventId">The event.</param>
    /// <param name="entry">The entry of this ball.</param>
    /// <param name="ball">This ball's id; null for a ball not seen yet.</param>
    /// <param name="serial">This ball's serial as typed, or null.</param>
    public static string? Sentence(DbConnection connection, string eventId, string entry, string? ball, string? serial)
    {
        if (serial is null || SerialLookAlikes.Fold(serial) is not { Length: > 0 } folded)
        {
            return null;
        }

        var sql = $"""
            SELECT number AS Number, entry AS Entry, serial AS Serial FROM inspection_index
            WHERE serial_folded = @folded AND event = @eventId AND superseded_by IS NULL AND (ball IS NULL OR ball IS DISTINCT FROM @ball OR entry <> @entry)
              AND {RulingIndex.Counts("inspection_index")}
            ORDER BY serial = @serial DESC, seq LIMIT 1
            """;
        return connection.QueryFirstOrDefault<OtherRow>(sql, new { folded, eventId, entry, ball, serial }) switch
        {
            null => null,
            { } other when other.Serial == serial && other.Entry == entry =>
                $"Serial {serial} was recorded as another ball of this entry, {other.Number}: if it is the same ball, "
                + "open that record and measure it again from there.",
            { } other when other.Serial == serial =>
                $"Serial {serial} was recorded for entry {other.Entry} as well, {other.Number}: look at both balls before either is used.",
            { } other => $"Serial {serial} looks like {other.Serial} of entry {other.Entry}, {other.Number}: read it again.",
        };
    }

    private sealed record OtherRow(string Number, string Entry, string Serial);
}
