using System.Collections.Concurrent;
using System.Data.Common;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Desk.Charts;

/// <summary>What was read from the bodies of one event so far, by running number.</summary>
internal sealed class EventBodies(string eventId)
{
    private readonly Lock _reading = new();
    private readonly BodyReader _reader = new();
    private readonly ConcurrentDictionary<long, BodyFigures> _figures = new();
    private long _last;

    /// <summary>Reads the bodies recorded since the last call, and returns all.</summary>
    public IReadOnlyDictionary<long, BodyFigures> ReadOn(DbConnection connection)
    {
        var sql = $"""
            SELECT i.running, {Register.Entry("r")}
            FROM inspection_index i JOIN register_entry r ON r.seq = i.seq
            WHERE i.event = @eventId AND i.running > @last ORDER BY i.running
            """;
        lock (_reading)
        {
            foreach (var row in connection.Query<(long Running, long Seq, byte[] Body, byte[] Leaf)>(
                sql, new { eventId, last = _last }, buffered: false))
            {
                _figures[row.Running] = _reader.Read(Register.Whole(row.Seq, row.Body, row.Leaf));
                _last = row.Running;
            }
        }

        return _figures;
    }
}
