using System.Diagnostics;
using Dapper;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.Import;

/// <summary>Works out what a list would do to an event, and does what was chosen of it: in turns at the gate, of which only the last one
/// makes anything count.</summary>
public sealed class EntryImport(Database database, Events events, KnownBowlers bowlers, WriteGate gate)
{
    /// <summary>The most entries of a turn: others wait at the gate as long as it takes.</summary>
    internal const int MostInATurn = 250;

    // Taking entries back looks at every table that names people.
    private static readonly TimeSpan Longest = TimeSpan.FromMilliseconds(25);

    // A name that records were made under, or that another event or a sign-in has too, is changed where all of that is seen.
    private const string Settled = """
        SELECT e.entry FROM entry e
        WHERE e.event = @eventId AND (
          EXISTS (SELECT 1 FROM inspection_index i WHERE i.event = e.event AND i.entry = e.entry)
          OR EXISTS (SELECT 1 FROM entry o WHERE o.person = e.person AND (o.event <> e.event OR o.entry <> e.entry))
          OR EXISTS (SELECT 1 FROM sign_in s WHERE s.person = e.person))
        """;

    /// <summary>What the rows of a table would do to an event as it is now.</summary>
    public ImportPlan Plan(Event into, ImportTable table, Matching matching)
    {
        using var connection = database.OpenForReading();
        var settled = connection.Query<string>(Settled, new { eventId = into.Id }).ToHashSet(StringComparer.OrdinalIgnoreCase);
        return new Planner(into, events.EntriesOf(into.Id), settled, names => bowlers.Of(into.Id, names)).Plan(table, matching);
    }

    /// <summary>Takes back what lists entered that were left half when the station ended.</summary>
    public async Task ClearLeft()
    {
        List<long> left;
        using (var connection = database.OpenForReading())
        {
            left = connection.Query<long>("SELECT import FROM entry_import WHERE open = 1").AsList();
        }

        foreach (var import in left)
        {
            await Clear(import);
        }
    }

    /// <summary>Takes back what a list has entered so far.</summary>
    internal async Task Clear(long import)
    {
        while (await gate.Run(write => ClearSome(write, import)))
        {
        }
    }

    /// <summary>Begins a list. Returns its number.</summary>
    internal static long Begin(WriteTransaction write, DateTimeOffset now)
    {
        var import = write.Connection.ExecuteScalar<long>(
            "SELECT coalesce(max(import), 0) + 1 FROM entry_import", null, write.Transaction);
        write.Connection.Execute(
            "INSERT INTO entry_import (import, open, began_at) VALUES (@import, 1, @now)", new { import, now = UtcText.Of(now) },
            write.Transaction);
        return import;
    }

    /// <summary>Enters some more of a list, which do not count yet. Returns how many; null, and enters none, when the event has other
    /// squads now or one of the numbers.</summary>
    internal static int? EnterSome(WriteTransaction write, Event into, long import, IReadOnlyList<NewEntry> entries, int from)
    {
        var some = entries.Skip(from).Take(MostInATurn).ToList();
        var taken = $"SELECT count(*) FROM entry WHERE event = @Id AND entry IN (SELECT value FROM {EngineSql.Each("numbers")})";
        var numbers = EngineSql.List(some.Select(entry => entry.Number));
        if (Events.Find(write.Connection, into.Id, write.Transaction)?.Squads.SequenceEqual(into.Squads) != true
            || write.Connection.ExecuteScalar<long>(taken, new { into.Id, numbers }, write.Transaction) > 0)
        {
            return null;
        }

        Events.Enter(write, into.Id, some, import);
        return some.Count;
    }

    /// <summary>Makes all that was entered count, and changes what is to be changed. Returns false and does nothing when somebody has
    /// entered one of the numbers meanwhile, or changed what the list changes.</summary>
    /// <param name="write">The turn at the gate.</param>
    /// <param name="into">The event.</param>
    /// <param name="import">The list; null when it enters nobody.</param>
    /// <param name="chosen">What is done of it.</param>
    /// <param name="by">Who does it.</param>
    internal static bool TryFinish(WriteTransaction write, Event into, long? import, ImportChoices chosen, ChangedBy by)
    {
        if (chosen.Changes.Any(row => Events.FindEntry(write.Connection, into.Id, row.There.Number, write.Transaction) != row.There)
            || IsTakenInOtherCase(write, into, import, chosen))
        {
            return false;
        }

        foreach (var row in chosen.Changes)
        {
            EntryChanges.Set(write, into.Id, row.There, row.Name, row.Squad ?? row.There.Squad, by);
            if (row.UnderAge is { } isUnderAge)
            {
                var guardian = isUnderAge ? GuardianContacts.Of(write.Connection, write.Transaction, into.Id, row.There.Number) : "";
                EntryChanges.SetUnderAge(write, into.Id, row.There, isUnderAge, guardian, by);
            }
        }

        if (import is not null)
        {
            write.Connection.Execute("UPDATE entry_import SET open = 0 WHERE import = @import", new { import }, write.Transaction);
            var many = EventCorrections.Count(chosen.Entries.Count, "entry", "entries");
            EventChanges.Keep(write, new Change(into.Id, null, "list of entries added", null, many), by);
        }

        return true;
    }

    // Upper and lower case are the same number. Those that were there when the list began were looked at then.
    private static bool IsTakenInOtherCase(WriteTransaction write, Event into, long? import, ImportChoices chosen)
    {
        const string Many = "SELECT count(*) FROM entry WHERE event = @Id";
        const string Numbers = "SELECT entry FROM entry WHERE event = @Id AND coalesce(import, 0) <> @import";
        return import is not null
            && write.Connection.ExecuteScalar<long>(Many, new { into.Id }, write.Transaction) != chosen.Before + chosen.Entries.Count
            && write.Connection.Query<string>(Numbers, new { into.Id, import }, write.Transaction)
                .ToHashSet(StringComparer.OrdinalIgnoreCase).Overlaps(chosen.Entries.Select(entry => entry.Number));
    }

    // Names are overwritten, as when they are struck.
    private static bool ClearSome(WriteTransaction write, long import)
    {
        const string Some = "SELECT event AS Event, entry AS Entry, person AS Person FROM entry WHERE import = @import LIMIT @MostInATurn";
        var began = Stopwatch.GetTimestamp();
        var rows = write.Connection.Query<(string Event, string Entry, string Person)>(Some, new { import, MostInATurn }, write.Transaction)
            .AsList();
        if (rows.Count == 0)
        {
            write.Connection.Execute("DELETE FROM entry_import WHERE import = @import", new { import }, write.Transaction);
            return false;
        }

        write.Connection.Execute(EngineSql.OverwriteDeleted, null, write.Transaction);
        var at = 0;
        do
        {
            var (@event, entry, person) = rows[at];
            write.Connection.Execute(
                "DELETE FROM entry WHERE event = @event AND entry = @entry", new { @event, entry }, write.Transaction);
            EventCorrections.DeleteWithoutEntry(write, [person]);
            at++;
        }
        while (at < rows.Count && Stopwatch.GetElapsedTime(began) < Longest);
        write.Connection.Execute(EngineSql.LeaveDeleted, null, write.Transaction);
        return true;
    }
}
