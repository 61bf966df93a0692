using System.Data.Common;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Prepare;

/// <summary>A change of an event or of one of its entries.</summary>
/// <param name="Event">The event's short name.</param>
/// <param name="Entry">The bowler's number; null when the event itself was changed.</param>
/// <param name="What">What was changed, in words.</param>
/// <param name="Was">What it was before; null when it was nothing, or a name that was struck.</param>
/// <param name="Became">What it is since; null when it is nothing, or a name that was struck.</param>
public sealed record Change(string Event, string? Entry, string What, string? Was, string? Became);

/// <summary>A change with who made it and when.</summary>
/// <param name="Made">The change.</param>
/// <param name="By">Who made it; null once struck.</param>
/// <param name="At">When.</param>
public sealed record KeptChange(Change Made, string? By, DateTimeOffset At);

/// <summary>Who makes a change, and when.</summary>
public sealed record ChangedBy(PersonId Person, DateTimeOffset At);

/// <summary>Every change of an event and its entries. None is lost; the names of bowlers in them can be struck.</summary>
public sealed class EventChanges(Database database)
{
    /// <summary>The word for an event that was deleted: what is told of a short name begins anew behind it.</summary>
    private const string Deleted = "deleted";

    private const string NameOfBowler = "name of the bowler";

    /// <summary>The word for the names of an event that were struck.</summary>
    public const string NamesStruck = "names struck";

    /// <summary>The word for an archive with the names that somebody took.</summary>
    public const string NamesArchived = "archive with names taken";

    private const string Columns = """
        SELECT c.event AS Event, c.entry AS Entry, c.what AS What, coalesce(n.was, c.was) AS Was, coalesce(n.became, c.became) AS Became,
               p.name AS By, c.at AS At
        FROM event_change c JOIN person p ON p.id = c.by_person LEFT JOIN changed_name n ON n.change = c.change
        """;

    private const string SinceDeleted =
        "c.change > (SELECT coalesce(max(d.change), 0) FROM event_change d WHERE d.event = @eventId AND d.what = 'deleted')";

    /// <summary>The changes of an event and all its entries, newest first.</summary>
    public IReadOnlyList<KeptChange> OfEvent(string eventId)
    {
        using var connection = database.OpenForReading();
        return Read(connection, $"{Columns} WHERE c.event = @eventId AND {SinceDeleted} ORDER BY c.change DESC", new { eventId });
    }

    /// <summary>The changes of one entry, newest first, with those of the bowler's name at other events.</summary>
    public IReadOnlyList<KeptChange> OfEntry(string eventId, Entry entry)
    {
        using var connection = database.OpenForReading();
        return Read(
            connection,
            $"""
            {Columns}
            WHERE (c.event = @eventId AND c.entry = @Number AND {SinceDeleted}) OR n.person = @person
            ORDER BY c.change DESC
            """,
            new { eventId, entry.Number, person = entry.Person.ToString() });
    }

    /// <summary>The events that were deleted, newest first.</summary>
    public IReadOnlyList<KeptChange> OfDeleted()
    {
        using var connection = database.OpenForReading();
        return Read(connection, $"{Columns} WHERE c.what = @Deleted ORDER BY c.change DESC", new { Deleted });
    }

    /// <summary>When the names of an event were struck last; null when they were not.</summary>
    public KeptChange? LastStrike(string eventId)
    {
        using var connection = database.OpenForReading();
        return LastStrike(connection, null, eventId);
    }

    internal static KeptChange? LastStrike(DbConnection connection, DbTransaction? transaction, string eventId) => connection
        .QueryFirstOrDefault<ChangeRow>(
            $"{Columns} WHERE c.event = @eventId AND c.what = @NamesStruck AND {SinceDeleted} ORDER BY c.change DESC",
            new { eventId, NamesStruck }, transaction)?.ToDomain();

    /// <summary>Who took an archive of an event with names, and when, newest first.</summary>
    public IReadOnlyList<KeptChange> ArchivesWithNames(string eventId) =>
        [.. OfEvent(eventId).Where(kept => kept.Made.What == NamesArchived)];

    /// <summary>The number of the latest change of an event itself, 0 for none: a form that was opened before it is out of date.</summary>
    public long Latest(string eventId)
    {
        using var connection = database.OpenForReading();
        return Latest(connection, null, eventId);
    }

    internal static long Latest(DbConnection connection, DbTransaction? transaction, string eventId) => connection.ExecuteScalar<long>(
        "SELECT coalesce(max(change), 0) FROM event_change WHERE event = @eventId AND entry IS NULL", new { eventId }, transaction);

    /// <summary>Keeps a change.</summary>
    public static long Keep(WriteTransaction write, Change made, ChangedBy by)
    {
        var change = write.Connection.ExecuteScalar<long>(
            "SELECT coalesce(max(change), 0) + 1 FROM event_change", null, write.Transaction);
        const string Sql = """
            INSERT INTO event_change (change, event, entry, what, was, became, by_person, at)
            VALUES (@change, @Event, @Entry, @What, @Was, @Became, @person, @at)
            """;
        var (person, at) = (by.Person.ToString(), UtcText.Of(by.At));
        write.Connection.Execute(
            Sql, new { change, made.Event, made.Entry, made.What, made.Was, made.Became, person, at }, write.Transaction);
        return change;
    }

    /// <summary>Keeps that an event was deleted.</summary>
    public static void KeepDeleted(WriteTransaction write, Event held, ChangedBy by) =>
        Keep(write, new Change(held.Id, null, Deleted, held.Name, null), by);

    /// <summary>Keeps that a bowler's name was put right. The names stand where striking the person finds them.</summary>
    public static void KeepName(
        WriteTransaction write, string eventId, string entry, PersonId person, (string Was, string Became) names, ChangedBy by)
    {
        var change = Keep(write, new Change(eventId, entry, NameOfBowler, null, null), by);
        write.Connection.Execute(
            "INSERT INTO changed_name (change, person, was, became) VALUES (@change, @person, @Was, @Became)",
            new { change, person = person.ToString(), names.Was, names.Became },
            write.Transaction);
    }

    private static List<KeptChange> Read(DbConnection connection, string sql, object values) =>
        [.. connection.Query<ChangeRow>(sql, values).Select(row => row.ToDomain())];

    // Worked-out columns have no type of their own while there is no row, so the members are set by name.
    private sealed record ChangeRow
    {
        public required string Event { get; init; }
        public string? Entry { get; init; }
        public required string What { get; init; }
        public string? Was { get; init; }
        public string? Became { get; init; }
        public string? By { get; init; }
        public required string At { get; init; }

        public KeptChange ToDomain() => new(new Change(Event, Entry, What, Was, Became), By, UtcText.Parse(At));
    }
}
