using System.Data.Common;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.Queue;

/// <summary>The queue of an event now.</summary>
/// <param name="Waiting">Those who wait, in the order of the calls.</param>
/// <param name="AtTables">Those who were called or are at a table, the latest call first.</param>
/// <param name="Tables">The tables that are open, by name.</param>
/// <param name="Pace">How fast the tables work.</param>
/// <param name="Now">The time of this state.</param>
public sealed record QueueNow(
    IReadOnlyList<Place> Waiting, IReadOnlyList<Place> AtTables, IReadOnlyList<OpenTable> Tables, Pace Pace, DateTimeOffset Now)
{
    /// <summary>The bowler who was called to a person's table or is at it.</summary>
    public Place? At(PersonId inspector) => AtTables.FirstOrDefault(place => place.Inspector == inspector);

    /// <summary>A person's open table, or null.</summary>
    public OpenTable? TableOf(PersonId inspector) => Tables.FirstOrDefault(table => table.Inspector == inspector);

    /// <summary>The place of an entry that waits or is at a table, or null.</summary>
    public Place? Of(string entry) => Waiting.Concat(AtTables).FirstOrDefault(place => place.Entry == entry);
}

/// <summary>Who is waiting, who was called where, and which tables are open. Calling is in <see cref="Calls"/>.</summary>
public sealed class BowlerQueue(Database database, TimeProvider time)
{
    private const string Columns = """
        SELECT q.place AS Id, q.entry AS Entry, p.name AS Bowler, e.squad AS Squad, q.state AS State, q.arrived_at AS ArrivedAt,
               q.waits_since AS WaitsSince, q.table_name AS TableName, q.person AS Person, e.under_age AS UnderAge
        FROM queue_place q JOIN entry e ON e.event = q.event AND e.entry = q.entry JOIN person p ON p.id = e.person
        """;

    /// <summary>The queue of an event now.</summary>
    public QueueNow Of(Event held)
    {
        using var connection = database.OpenForReading();
        var now = time.GetUtcNow();
        var open = OpenPlaces(connection, null, held);
        var waiting = CallingOrder.Of(open.Where(place => place.State == PlaceState.Waiting), now);
        var tables = Tables(connection, null, held.Id);
        return new QueueNow(
            waiting, [.. open.Where(place => place.State != PlaceState.Waiting)], tables,
            PaceOf(connection, held.Id, tables.Count, waiting.Count, now), now);
    }

    /// <summary>A person's open table, or null.</summary>
    public OpenTable? TableOf(string eventId, PersonId person)
    {
        using var connection = database.OpenForReading();
        return Tables(connection, null, eventId).FirstOrDefault(table => table.Inspector == person);
    }

    /// <summary>Everyone of an event who waits or is at a table, the latest call first.</summary>
    internal static IReadOnlyList<Place> OpenPlaces(DbConnection connection, DbTransaction? transaction, Event held) =>
    [
        .. connection.Query<PlaceRow>(
                $"{Columns} WHERE q.event = @Id AND q.state IN ('waiting', 'called', 'at-table') ORDER BY q.called_at DESC, q.place",
                new { held.Id }, transaction)
            .Select(row => row.ToDomain(held)),
    ];

    /// <summary>The tables of an event that are open, by name.</summary>
    internal static IReadOnlyList<OpenTable> Tables(DbConnection connection, DbTransaction? transaction, string eventId) =>
    [
        .. connection.Query<TableRow>(
                """
                SELECT t.name AS Name, t.person AS Person, p.name AS InspectorName
                FROM queue_table t JOIN person p ON p.id = t.person WHERE t.event = @eventId ORDER BY length(t.name_key), t.name_key
                """,
                new { eventId },
                transaction)
            .Select(row => new OpenTable(row.Name, PersonId.From(row.Person), row.InspectorName)),
    ];

    private static Pace PaceOf(DbConnection connection, string eventId, int tables, int waiting, DateTimeOffset now)
    {
        var since = now.AddHours(-1);
        var row = connection.QuerySingle<PaceRow>(
            """
            SELECT (SELECT count(*) FROM inspection_index WHERE event = @eventId AND at > @since) AS Balls,
                   (SELECT count(*) FROM queue_place WHERE event = @eventId AND state = 'done' AND ended_at > @since) AS Finished,
                   (SELECT coalesce(min(called_at), '') FROM queue_place WHERE event = @eventId AND coalesce(ended_at, '9999') > @since) AS FirstCall
            """,
            new { eventId, since = UtcText.Of(since) });
        var from = row.FirstCall.Length > 0 && UtcText.Parse(row.FirstCall) is var first && first > since ? first : since;
        return new Pace((int)row.Balls, tables, waiting, (int)row.Finished, now - from);
    }

    private sealed record PaceRow(long Balls, long Finished, string FirstCall);

    private sealed record TableRow(string Name, string Person, string? InspectorName);

    private sealed record PlaceRow(
        long Id, string Entry, string? Bowler, string? Squad, string State, string ArrivedAt, string WaitsSince, string? TableName,
        string? Person, long UnderAge)
    {
        public Place ToDomain(Event held) => new(
            Id,
            Entry,
            Bowler,
            Squad,
            held.Squads.FirstOrDefault(squad => squad.Name == Squad) is { } squad ? held.Begins(squad) : null,
            PlaceStates.Parse(State),
            UtcText.Parse(ArrivedAt),
            UtcText.Parse(WaitsSince),
            TableName,
            Person is null ? null : PersonId.From(Person))
        {
            IsUnderAge = UnderAge == 1,
        };
    }
}
