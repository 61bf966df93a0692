using System.Globalization;
using Dapper;
using Inspect.Rules.Rulesets;
using Inspect.Station.Storage;
using Inspect.Station.Web;

namespace Inspect.Station.Prepare;

/// <summary>Changes or deletes an event, and keeps what was changed.</summary>
public static class EventCorrections
{
    /// <summary>The tables that have rows of an event by its short name, each behind those that it refers to.</summary>
    public static IReadOnlyList<string> Tables { get; } =
    [
        "event", "squad", "entry", "guardian_contact", "event_terms", "event_supplement", "event_check", "event_table", "queue_table",
        "queue_place", "unfinished_sheet", "entered_ball", "entry_card", "custody", "event_list",
    ];

    /// <summary>Changes an event, or nothing when there is a fault.</summary>
    /// <param name="write">The turn at the gate.</param>
    /// <param name="asked">The event as shown on the form, and as it is to be.</param>
    /// <param name="squads">What is to become of its squads.</param>
    /// <param name="library">All editions.</param>
    /// <param name="by">Who changes it.</param>
    /// <returns>Everything that is wrong, by the fields of the form.</returns>
    public static Faults Apply(
        WriteTransaction write, AskedChange asked, IReadOnlyList<ChangedSquad> squads, EditionLibrary library, ChangedBy by)
    {
        var (id, now) = (asked.Event, asked.Now);
        var faults = new Faults();
        if (Events.Find(write.Connection, id, write.Transaction) is not { } held
            || EventChanges.Latest(write.Connection, write.Transaction, id) != asked.Seen)
        {
            faults.Add(Faults.Whole, "Somebody changed this event after this page was opened. "
                + "What stands here now is yours; look at the changes on the event's page, and save it again if it is right.");
            return faults;
        }

        AddFaults(write, held, now, squads, library, faults);
        if (!faults.AreNone)
        {
            return faults;
        }

        Events.Set(write, now with { Id = id });
        ChangeSquads(write, id, now, squads);
        if (now.Id != id)
        {
            write.Connection.Execute(EngineSql.ReferencesAtTheEnd, null, write.Transaction);
            var names = new { from = id, to = now.Id };
            foreach (var table in (string[])[.. Tables, "event_change"])
            {
                write.Connection.Execute($"UPDATE {table} SET event = @to WHERE event = @from", names, write.Transaction);
            }
        }

        foreach (var (what, was, became) in Differences(held, now, squads))
        {
            EventChanges.Keep(write, new Change(now.Id, null, what, was, became), by);
        }

        return faults;
    }

    /// <summary>Why an event cannot be deleted, or that it is another than was shown, in a sentence; null once it is deleted.</summary>
    /// <param name="write">The turn at the gate.</param>
    /// <param name="eventId">The event.</param>
    /// <param name="entries">How many entries were shown.</param>
    /// <param name="by">Who deletes it.</param>
    public static string? Delete(WriteTransaction write, string eventId, int entries, ChangedBy by)
    {
        var held = Events.Find(write.Connection, eventId, write.Transaction)!;
        if (EventLock.Of(write.Connection, eventId, write.Transaction).OfEvent is { } refusal)
        {
            return refusal;
        }

        var people = write.Connection.Query<string>(
            "SELECT coalesce(first_person, person) FROM entry WHERE event = @eventId UNION SELECT person FROM entry WHERE event = @eventId",
            new { eventId }, write.Transaction).AsList();
        var there = write.Connection.ExecuteScalar<long>(
            $"SELECT count(*) FROM entry e WHERE {Events.Counts} AND e.event = @eventId", new { eventId }, write.Transaction);
        if (there != entries)
        {
            return $"{held.Name} now has {Count(there, "entry", "entries")}; delete it if all of it is to go.";
        }

        foreach (var table in Tables.Reverse())
        {
            write.Connection.Execute($"DELETE FROM {table} WHERE event = @eventId", new { eventId }, write.Transaction);
        }

        // Somebody who turned out to be another person goes before that one, so this is done until nobody is left to go.
        int gone;
        do
        {
            gone = DeleteWithoutEntry(write, people);
        }
        while (gone > 0);

        EventChanges.KeepDeleted(write, held, by);
        return null;
    }

    /// <summary>Deletes those people who are entered nowhere, do not sign in, and whom nobody turned out to be. Returns how many.</summary>
    internal static int DeleteWithoutEntry(WriteTransaction write, IEnumerable<string> people) => write.Connection.Execute(
        """
        DELETE FROM person WHERE id = @id AND NOT EXISTS (SELECT 1 FROM entry e WHERE e.person = @id OR e.first_person = @id)
          AND NOT EXISTS (SELECT 1 FROM sign_in s WHERE s.person = @id) AND NOT EXISTS (SELECT 1 FROM person o WHERE o.same_as = @id)
        """,
        people.Select(id => new { id }), write.Transaction);

    /// <summary>A number with its word.</summary>
    internal static string Count(long many, string one, string more) =>
        many == 1 ? $"1 {one}" : string.Create(CultureInfo.InvariantCulture, $"{many} {more}");

    private static void AddFaults(
        WriteTransaction write, Event held, Event now, IReadOnlyList<ChangedSquad> squads, EditionLibrary library, Faults faults)
    {
        var recorded = EventLock.Of(write.Connection, held.Id, write.Transaction);
        if (now.Id != held.Id)
        {
            if (recorded.OfShortName is { } locked)
            {
                faults.Add("event", $"\"{now.Id}\" cannot be taken: {char.ToLowerInvariant(locked[0])}{locked[1..]}");
            }
            else if (Events.Find(write.Connection, now.Id, write.Transaction) is not null)
            {
                faults.Add("event", $"\"{now.Id}\" is the short name of another event on this station; give another one.");
            }
        }

        if ((now.Authority, now.Edition) != (held.Authority, held.Edition) && recorded.OfRules is { } judged)
        {
            faults.Add("rules", judged);
        }

        foreach (var (day, sentence) in recorded.Outside(now.From, now.To))
        {
            faults.Add(day < now.From ? "from" : "to", sentence);
        }

        if ((now.Authority, now.Edition, now.From, now.To) != (held.Authority, held.Edition, held.From, held.To))
        {
            EventTerms.Supplements(write.Connection, held.Id, write.Transaction)
                .SelectMany(supplement => EventRules.Loosened(now, supplement, library)).ToList()
                .ForEach(message => faults.Add("rules", message));
        }

        foreach (var squad in held.Squads)
        {
            if (!squads.Any(each => each.Was == squad.Name && each.Now is not null)
                && EntriesIn(write, held.Id, squad.Name) is > 0 and var many)
            {
                faults.Add(TypedSquad.Path(held.Squads.Index().First(each => each.Item == squad).Index, "gone"),
                    $"Squad \"{squad.Name}\" has {Count(many, "entry", "entries")}; move them to another squad before you remove it.");
            }
        }
    }

    private static long EntriesIn(WriteTransaction write, string eventId, string squad) => write.Connection.ExecuteScalar<long>(
        "SELECT count(*) FROM entry WHERE event = @eventId AND squad = @squad", new { eventId, squad }, write.Transaction);

    // Squads may take each other's names: the entries wait under the number of the row meanwhile.
    private static void ChangeSquads(WriteTransaction write, string eventId, Event now, IReadOnlyList<ChangedSquad> squads)
    {
        var renamed = squads.Index().Where(each => each.Item is { Was: { } was, Now: { } to } && was != to.Name)
            .Select(each => new { eventId, was = each.Item.Was, waits = $"\n{each.Index}", name = each.Item.Now!.Name }).ToList();
        const string Sql = "UPDATE entry SET squad = ";
        write.Connection.Execute(EngineSql.ReferencesAtTheEnd, null, write.Transaction);
        write.Connection.Execute($"{Sql}@waits WHERE event = @eventId AND squad = @was", renamed, write.Transaction);
        write.Connection.Execute($"{Sql}@name WHERE event = @eventId AND squad = @waits", renamed, write.Transaction);
        write.Connection.Execute("DELETE FROM squad WHERE event = @eventId", new { eventId }, write.Transaction);
        Events.AddSquads(write, now with { Id = eventId });
    }

    private static IEnumerable<(string What, string? Was, string? Became)> Differences(
        Event held, Event now, IReadOnlyList<ChangedSquad> squads)
    {
        (string What, string Was, string Became)[] members =
        [
            ("short name", held.Id, now.Id),
            ("name", held.Name, now.Name),
            ("first day", EventWords.Day(held.From), EventWords.Day(now.From)),
            ("last day", EventWords.Day(held.To), EventWords.Day(now.To)),
            ("time zone", held.TimeZone, now.TimeZone),
            ("rules", TypedEvent.RulesOf(held), TypedEvent.RulesOf(now)),
            ("rules checked", Plan(held), Plan(now)),
            ("officials", Officials(held), Officials(now)),
            ("names kept", NamesKept.For(held), NamesKept.For(now)),
        ];
        var before = held.Squads.ToDictionary(squad => squad.Name);
        foreach (var (what, was, became) in members.Where(member => member.Was != member.Became))
        {
            yield return (what, was, became);
        }

        foreach (var gone in before.Keys.Except(squads.Where(squad => squad.Now is not null).Select(squad => squad.Was ?? "")))
        {
            yield return ($"squad {gone} removed", Begins(before[gone]), null);
        }

        foreach (var (was, squad) in squads)
        {
            if (squad is null)
            {
                continue;
            }

            if (was is null || !before.TryGetValue(was, out var earlier))
            {
                yield return ($"squad {squad.Name} added", null, Begins(squad));
                continue;
            }

            if (earlier.Name != squad.Name)
            {
                yield return ("name of a squad", earlier.Name, squad.Name);
            }

            if (earlier.Starts != squad.Starts)
            {
                yield return ($"squad {squad.Name} begins", Begins(earlier), Begins(squad));
            }
        }
    }

    private static string Plan(Event held) => held.Plan is null ? "every rule" : string.Join(", ", held.Plan);

    private static string Officials(Event held) => held.HasSingleOfficial ? TypedEvent.OneOfficialWords : TypedEvent.SeveralOfficialsWords;

    private static string Begins(Squad squad) => squad.Starts.ToString("d MMMM yyyy, HH:mm", CultureInfo.InvariantCulture);
}

/// <summary>A change of an event as asked for.</summary>
/// <param name="Event">The event's short name until now.</param>
/// <param name="Now">The event as it is to be.</param>
/// <param name="Seen">The latest change when the form was shown.</param>
public sealed record AskedChange(string Event, Event Now, long Seen);
