using System.Collections.Concurrent;
using System.Data.Common;
using Dapper;

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
        const string Sql = """
            SELECT i.running AS Running, r.body AS Body
            FROM inspection_index i JOIN register_entry r ON r.seq = i.seq
            WHERE i.event = @eventId AND i.running > @last ORDER BY i.running
            """;
        lock (_reading)
        {
            foreach (var row in connection.Query<BodyRow>(Sql, new { eventId, last = _last }, buffered: false))
            {
                _figures[row.Running] = _reader.Read(row.Body);
                _last = row.Running;
            }
        }

        return _figures;
    }

    private sealed record BodyRow(long Running, byte[] Body);
}
