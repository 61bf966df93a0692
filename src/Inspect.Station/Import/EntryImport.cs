using Dapper;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.Import;

/// <summary>Works out what a list would do to an event, and does what was chosen of it.</summary>
public sealed class EntryImport(Database database, Events events, KnownBowlers bowlers)
{
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

    /// <summary>Does what was chosen, all of it or nothing. Returns false and does nothing when the event's entries are not those that
    /// the plan was made from.</summary>
    internal static bool TryDo(WriteTransaction write, string eventId, ImportPlan plan, ImportChoices chosen, ChangedBy by)
    {
        if (!Events.EntriesOf(write.Connection, eventId).SequenceEqual(plan.There))
        {
            return false;
        }

        foreach (var entry in chosen.Entries)
        {
            Events.Enter(write, eventId, entry);
        }

        foreach (var row in chosen.Changes)
        {
            EntryChanges.Set(write, eventId, row.There, row.Name, row.Squad ?? row.There.Squad, by);
        }

        if (chosen.Entries.Count > 0)
        {
            var many = EventCorrections.Count(chosen.Entries.Count, "entry", "entries");
            EventChanges.Keep(write, new Change(eventId, null, "list of entries added", null, many), by);
        }

        return true;
    }
}
