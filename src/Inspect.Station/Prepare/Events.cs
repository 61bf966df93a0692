using System.Data.Common;
using System.Globalization;
using System.Text.Json;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Prepare;

/// <summary>The events of this station and their entries.</summary>
public sealed class Events(Database database)
{
    private const string Columns = """
        SELECT event AS Id, name AS Name, from_day AS FromDay, to_day AS ToDay, time_zone AS TimeZone, authority AS Authority,
               edition AS Edition, plan AS Plan, single_official AS SingleOfficial, names_kept_days AS NamesKeptDays
        FROM event
        """;

    /// <summary>What holds of an entry <c>e</c> that counts: it is of no list that is still being entered.</summary>
    internal const string Counts = "coalesce(e.import, 0) NOT IN (SELECT import FROM entry_import WHERE open = 1)";

    private const string EntryColumns = $"""
        SELECT e.entry AS Number, e.person AS Person, p.name AS Bowler, e.squad AS Squad, e.withdrawn AS Withdrawn, e.merged_into AS MergedInto,
               e.under_age AS UnderAge
        FROM entry e JOIN person p ON p.id = e.person WHERE {Counts}
        """;

    /// <summary>Every event, newest first.</summary>
    public IReadOnlyList<Event> All()
    {
        using var connection = database.OpenForReading();
        var rows = connection.Query<EventRow>($"{Columns} ORDER BY from_day DESC, event").AsList();
        var squads = connection.Query<SquadRow>("SELECT event AS Event, squad AS Name, starts AS Starts FROM squad ORDER BY starts, squad")
            .ToLookup(row => row.Event, row => row.ToDomain());
        return [.. rows.Select(row => row.ToDomain([.. squads[row.Id]]))];
    }

    /// <summary>The event with a short name, or null.</summary>
    public Event? Find(string id)
    {
        using var connection = database.OpenForReading();
        return Find(connection, id);
    }

    /// <summary>The event with a short name, or null, from a connection that is open.</summary>
    internal static Event? Find(DbConnection connection, string id, DbTransaction? transaction = null)
    {
        if (connection.QuerySingleOrDefault<EventRow>($"{Columns} WHERE event = @id", new { id }, transaction) is not { } row)
        {
            return null;
        }

        const string Squads = "SELECT event AS Event, squad AS Name, starts AS Starts FROM squad WHERE event = @id ORDER BY starts, squad";
        return row.ToDomain([.. connection.Query<SquadRow>(Squads, new { id }, transaction).Select(squad => squad.ToDomain())]);
    }

    /// <summary>Everyone entered in an event, by number.</summary>
    public IReadOnlyList<Entry> EntriesOf(string eventId)
    {
        using var connection = database.OpenForReading();
        return EntriesOf(connection, eventId);
    }

    /// <summary>Everyone entered in an event, by number, from a connection that is open.</summary>
    internal static IReadOnlyList<Entry> EntriesOf(DbConnection connection, string eventId) =>
        [.. connection.Query<EntryRow>($"{EntryColumns} AND e.event = @eventId ORDER BY e.entry", new { eventId })
            .Select(row => row.ToDomain())];

    /// <summary>The bowlers of an event who are under age.</summary>
    public YoungBowlers YoungBowlersOf(string eventId)
    {
        using var connection = database.OpenForReading();
        return YoungBowlers.Of(connection, eventId);
    }

    /// <summary>One bowler of an event by number, or null.</summary>
    public Entry? FindEntry(string eventId, string number)
    {
        using var connection = database.OpenForReading();
        return FindEntry(connection, eventId, number);
    }

    /// <summary>One bowler of an event by number, or null, from a connection that is open.</summary>
    internal static Entry? FindEntry(DbConnection connection, string eventId, string number, DbTransaction? transaction = null) =>
        connection.QuerySingleOrDefault<EntryRow>(
            $"{EntryColumns} AND e.event = @eventId AND e.entry = @number", new { eventId, number }, transaction)?.ToDomain();

    /// <summary>Adds an event with its squads.</summary>
    public static void Add(WriteTransaction write, Event added)
    {
        const string Sql = """
            INSERT INTO event (event, name, from_day, to_day, time_zone, authority, edition, plan, single_official, names_kept_days)
            VALUES (@Id, @Name, @FromDay, @ToDay, @TimeZone, @Authority, @Edition, @Plan, @SingleOfficial, @NamesKeptDays)
            """;
        write.Connection.Execute(Sql, EventRow.Of(added), write.Transaction);
        AddSquads(write, added);
    }

    /// <summary>Sets what an event is, but for its short name and its squads.</summary>
    internal static void Set(WriteTransaction write, Event changed) => write.Connection.Execute(
        """
        UPDATE event SET name = @Name, from_day = @FromDay, to_day = @ToDay, time_zone = @TimeZone, authority = @Authority, edition = @Edition,
          plan = @Plan, single_official = @SingleOfficial, names_kept_days = @NamesKeptDays
        WHERE event = @Id
        """,
        EventRow.Of(changed),
        write.Transaction);

    /// <summary>Adds the squads of an event.</summary>
    internal static void AddSquads(WriteTransaction write, Event held)
    {
        foreach (var squad in held.Squads)
        {
            write.Connection.Execute(
                "INSERT INTO squad (event, squad, starts) VALUES (@event, @Name, @starts)",
                new { @event = held.Id, squad.Name, starts = squad.Starts.ToString(SquadRow.Format, CultureInfo.InvariantCulture) },
                write.Transaction);
        }
    }

    /// <summary>Adds an event with its squads, unless its short name is taken. Returns whether it was added.</summary>
    public static bool TryAdd(WriteTransaction write, Event added)
    {
        const string Sql = "SELECT EXISTS (SELECT 1 FROM event WHERE event = @Id)";
        if (write.Connection.ExecuteScalar<long>(Sql, new { added.Id }, write.Transaction) == 1)
        {
            return false;
        }

        Add(write, added);
        return true;
    }

    /// <summary>Enters bowlers under their numbers. When a number is taken, none is entered. Returns whether they were entered.</summary>
    public static bool TryEnter(WriteTransaction write, string eventId, IReadOnlyList<NewEntry> entries)
    {
        const string Sql = "SELECT entry FROM entry WHERE event = @eventId";
        var taken = write.Connection.Query<string>(Sql, new { eventId }, write.Transaction).ToHashSet(StringComparer.OrdinalIgnoreCase);
        if (entries.Any(entry => taken.Contains(entry.Number)))
        {
            return false;
        }

        Enter(write, eventId, entries);
        return true;
    }

    /// <summary>Changes the first and last day of an event. Returns whether there is such an event.</summary>
    public static bool MoveDays(WriteTransaction write, string eventId, DateOnly from, DateOnly to) =>
        write.Connection.Execute(
            "UPDATE event SET from_day = @from, to_day = @to WHERE event = @eventId",
            new { eventId, from = Day(from), to = Day(to) },
            write.Transaction) == 1;

    /// <summary>Enters a bowler under a number: a known person, or else a new one.</summary>
    public static void Enter(WriteTransaction write, string eventId, NewEntry entry) => Enter(write, eventId, [entry]);

    /// <summary>Enters bowlers under their numbers: each a known person, or else a new one.</summary>
    /// <param name="write">The turn at the gate.</param>
    /// <param name="eventId">The event.</param>
    /// <param name="entries">The bowlers.</param>
    /// <param name="import">The list that enters them; null for none.</param>
    public static void Enter(WriteTransaction write, string eventId, IReadOnlyList<NewEntry> entries, long? import = null)
    {
        People.AddAll(write, [.. entries.Where(entry => entry.Known is null).Select(entry => (entry.New, entry.Bowler))]);
        write.Connection.Execute(
            $"""
            INSERT INTO entry (event, entry, person, squad, under_age, import)
            SELECT @eventId, {EngineSql.Member(0)}, {EngineSql.Member(1)}, {EngineSql.Member(2)}, {EngineSql.Member(3)}, @import
            FROM {EngineSql.Each("entries")}
            """,
            new
            {
                eventId,
                import,
                entries = EngineSql.List(entries.Select(entry => (object?[])
                    [entry.Number, $"{entry.Known ?? entry.New}", entry.Squad, entry.IsUnderAge ? 1 : 0])),
            },
            write.Transaction);
        foreach (var entry in entries.Where(entry => entry.Guardian.Length > 0))
        {
            GuardianContacts.Set(write, eventId, entry.Number, entry.Guardian);
        }
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private sealed record EventRow(
        string Id, string Name, string FromDay, string ToDay, string TimeZone, string Authority, string? Edition, string? Plan,
        long SingleOfficial, long NamesKeptDays)
    {
        public static EventRow Of(Event held) => new(
            held.Id, held.Name, Day(held.From), Day(held.To), held.TimeZone, held.Authority, held.Edition,
            held.Plan is null ? null : JsonSerializer.Serialize(held.Plan), held.HasSingleOfficial ? 1 : 0, held.NamesKeptDays);

        public Event ToDomain(IReadOnlyList<Squad> squads) => new(
            Id,
            Name,
            DateOnly.ParseExact(FromDay, "yyyy-MM-dd", CultureInfo.InvariantCulture),
            DateOnly.ParseExact(ToDay, "yyyy-MM-dd", CultureInfo.InvariantCulture),
            TimeZone,
            Authority,
            Edition,
            Plan is null ? null : JsonSerializer.Deserialize<string[]>(Plan),
            SingleOfficial == 1,
            squads)
        {
            NamesKeptDays = (int)NamesKeptDays,
        };
    }

    private sealed record SquadRow(string Event, string Name, string Starts)
    {
        public const string Format = "yyyy-MM-ddTHH:mm";

        public Squad ToDomain() => new(Name, DateTime.ParseExact(Starts, Format, CultureInfo.InvariantCulture));
    }

    private sealed record EntryRow(
        string Number, string Person, string? Bowler, string? Squad, long Withdrawn, string? MergedInto, long UnderAge)
    {
        public Entry ToDomain() => new(Number, PersonId.From(Person), Bowler, Squad, Withdrawn == 1, MergedInto)
        {
            IsUnderAge = UnderAge == 1,
        };
    }
}
