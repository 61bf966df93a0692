using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.Queue;

/// <summary>The result of a call.</summary>
public abstract record CallResult
{
    private CallResult()
    {
    }

    /// <summary>This bowler is called to the table, by this press of the button or an earlier press of the same.</summary>
    public sealed record Called(string Entry) : CallResult;

    /// <summary>Nobody waits.</summary>
    public sealed record NobodyWaits : CallResult;

    /// <summary>The person has no table open.</summary>
    public sealed record NoTable : CallResult;

    /// <summary>The bowler is at another table.</summary>
    public sealed record Elsewhere(string Entry, string Table) : CallResult;
}

/// <summary>Changes the queue: marks in, opens tables, calls, finishes. Every change is one write transaction, so no two tables
/// get the same bowler.</summary>
public sealed class Calls(WriteGate gate, TimeProvider time)
{
    /// <summary>Marks a bowler in at the door. A bowler who is in already keeps the place.</summary>
    public Task<int> MarkIn(Event held, string entry) => gate.Run(write => MarkIn(write, held.Id, entry));

    /// <summary>Opens a person's table under a name, or renames it. Returns the table that already has the name, or null
    /// when it is open now.</summary>
    public Task<OpenTable?> OpenTable(Event held, PersonId person, string name) => gate.Run(write =>
    {
        var key = KeyOf(name);
        var taken = BowlerQueue.Tables(write.Connection, write.Transaction, held.Id)
            .FirstOrDefault(table => KeyOf(table.Name) == key && table.Inspector != person);
        if (taken is null)
        {
            Execute(
                write,
                """
                INSERT INTO queue_table (event, person, name, name_key, opened_at) VALUES (@event, @person, @name, @key, @now)
                ON CONFLICT (event, person) DO UPDATE SET name = excluded.name, name_key = excluded.name_key
                """,
                new { @event = held.Id, person = person.ToString(), name, key, now = Now });
            Execute(
                write,
                "UPDATE queue_place SET table_name = @name WHERE event = @event AND person = @person AND state IN ('called', 'at-table')",
                new { @event = held.Id, person = person.ToString(), name });
        }

        return taken;
    });

    /// <summary>Closes a person's table. A bowler who was called to it or is at it goes back to the former place in the queue.</summary>
    public Task<int> CloseTable(Event held, PersonId person) => gate.Run(write =>
    {
        var whose = new { @event = held.Id, person = person.ToString() };
        Execute(
            write,
            """
            UPDATE queue_place SET state = 'waiting', table_name = NULL, person = NULL
            WHERE event = @event AND person = @person AND state IN ('called', 'at-table')
            """,
            whose);
        return Execute(write, "DELETE FROM queue_table WHERE event = @event AND person = @person", whose);
    });

    /// <summary>Finishes with the bowler at a person's table and calls the next.</summary>
    /// <param name="held">The event.</param>
    /// <param name="person">Whose table.</param>
    /// <param name="after">The place that was at the table when the button was shown, 0 for none, so that
    /// pressing it twice calls once.</param>
    /// <remarks>A bowler who was called but did not come goes to the end of the queue, and stays called while nobody else waits.</remarks>
    public Task<CallResult> Next(Event held, PersonId person, long after) => gate.Run<CallResult>(write =>
    {
        var open = BowlerQueue.OpenPlaces(write.Connection, write.Transaction, held);
        var current = open.FirstOrDefault(place => place.Inspector == person);
        if (current is not null && current.Id != after)
        {
            return new CallResult.Called(current.Entry);
        }

        if (TableOf(write, held, person) is not { } table)
        {
            return new CallResult.NoTable();
        }

        var waiting = CallingOrder.Of(open.Where(place => place.State == PlaceState.Waiting), time.GetUtcNow());
        var next = waiting.Count == 0 ? null : waiting[0];
        if (next is null && current is { State: PlaceState.Called })
        {
            return new CallResult.Called(current.Entry);
        }

        LetGo(write, current);
        return next is null ? new CallResult.NobodyWaits() : Call(write, next.Id, next.Entry, table);
    });

    /// <summary>Calls one bowler out of order, and marks them in if they were not.</summary>
    public Task<CallResult> Take(Event held, PersonId person, string entry) => gate.Run<CallResult>(write =>
    {
        if (TableOf(write, held, person) is not { } table)
        {
            return new CallResult.NoTable();
        }

        MarkIn(write, held.Id, entry);
        var open = BowlerQueue.OpenPlaces(write.Connection, write.Transaction, held);
        var wanted = open.Single(place => place.Entry == entry);
        if (wanted.Inspector == person)
        {
            return new CallResult.Called(entry);
        }

        if (wanted.State != PlaceState.Waiting)
        {
            return new CallResult.Elsewhere(entry, wanted.Table!);
        }

        LetGo(write, open.FirstOrDefault(place => place.Inspector == person));
        return Call(write, wanted.Id, entry, table);
    });

    /// <summary>Notes that a called bowler is at the table.</summary>
    public Task<int> IsHere(Event held, long place) => gate.Run(write => Execute(
        write, "UPDATE queue_place SET state = 'at-table' WHERE place = @place AND event = @event AND state = 'called'",
        new { place, @event = held.Id }));

    /// <summary>Puts a called bowler back to the end of the queue.</summary>
    public Task<int> DidNotCome(Event held, long place) => gate.Run(write => Execute(
        write,
        """
        UPDATE queue_place SET state = 'waiting', waits_since = @now, table_name = NULL, person = NULL
        WHERE place = @place AND event = @event AND state IN ('called', 'at-table')
        """,
        new { place, @event = held.Id, now = Now }));

    /// <summary>Ends a place: the bowler is finished or went away.</summary>
    public Task<int> End(Event held, long place, bool isDone) => gate.Run(write => End(write, held.Id, place, isDone));

    /// <summary>Follows a sheet that is begun: a called bowler is at the table, either the table named in the sheet or that of
    /// the person who types.</summary>
    internal static void Begun(WriteTransaction write, string eventId, string entry, PersonId by, string? table) => Execute(
        write,
        """
        UPDATE queue_place SET state = 'at-table'
        WHERE event = @eventId AND entry = @entry AND state = 'called'
          AND (person = @by OR person IN (SELECT person FROM queue_table WHERE event = @eventId AND name_key = @key))
        """,
        new { eventId, entry, by = by.ToString(), key = KeyOf(table ?? "") });

    /// <summary>Follows a ball that is recorded: a called bowler is at the table, and so is one who came without a call.</summary>
    internal static void Recorded(WriteTransaction write, RecordedJustNow recorded)
    {
        var row = new { eventId = recorded.Event, entry = recorded.Entry, by = recorded.By.ToString(), now = UtcText.Of(recorded.At) };
        Execute(write, "UPDATE queue_place SET state = 'at-table' WHERE event = @eventId AND entry = @entry AND state = 'called'", row);
        Execute(
            write,
            """
            UPDATE queue_place SET state = 'at-table', person = @by, called_at = @now,
              table_name = (SELECT name FROM queue_table WHERE event = @eventId AND person = @by)
            WHERE event = @eventId AND entry = @entry AND state = 'waiting'
              AND EXISTS (SELECT 1 FROM queue_table WHERE event = @eventId AND person = @by)
              AND NOT EXISTS (SELECT 1 FROM queue_place WHERE event = @eventId AND person = @by AND state IN ('called', 'at-table'))
            """,
            row);
    }

    private string Now => UtcText.Of(time.GetUtcNow());

    /// <summary>A table's name in the form used for comparison.</summary>
    internal static string KeyOf(string name) => name.Trim().ToUpperInvariant();

    private int MarkIn(WriteTransaction write, string eventId, string entry) => Execute(
        write,
        """
        INSERT INTO queue_place (event, entry, state, arrived_at, waits_since)
        SELECT @eventId, @entry, 'waiting', @now, @now
        WHERE NOT EXISTS (SELECT 1 FROM queue_place WHERE event = @eventId AND entry = @entry AND state IN ('waiting', 'called', 'at-table'))
        """,
        new { eventId, entry, now = Now });

    private CallResult.Called Call(WriteTransaction write, long place, string entry, OpenTable table)
    {
        Execute(
            write,
            "UPDATE queue_place SET state = 'called', table_name = @Name, person = @person, called_at = @now WHERE place = @place",
            new { place, table.Name, person = table.Inspector.ToString(), now = Now });
        return new CallResult.Called(entry);
    }

    // A bowler who came is finished; one who did not come waits again, behind the others.
    private void LetGo(WriteTransaction write, Place? current)
    {
        if (current is { State: PlaceState.AtTable })
        {
            Execute(write, "UPDATE queue_place SET state = 'done', ended_at = @now WHERE place = @Id", new { current.Id, now = Now });
        }
        else if (current is not null)
        {
            Execute(
                write,
                "UPDATE queue_place SET state = 'waiting', waits_since = @now, table_name = NULL, person = NULL WHERE place = @Id",
                new { current.Id, now = Now });
        }
    }

    private int End(WriteTransaction write, string eventId, long place, bool isDone) => Execute(
        write,
        """
        UPDATE queue_place SET state = @state, ended_at = @now WHERE place = @place AND event = @eventId AND state IN ('waiting', 'called', 'at-table')
        """,
        new { place, eventId, state = isDone ? "done" : "left", now = Now });

    private static OpenTable? TableOf(WriteTransaction write, Event held, PersonId person) =>
        BowlerQueue.Tables(write.Connection, write.Transaction, held.Id).FirstOrDefault(table => table.Inspector == person);

    private static int Execute(WriteTransaction write, string sql, object values) =>
        write.Connection.Execute(sql, values, write.Transaction);
}
