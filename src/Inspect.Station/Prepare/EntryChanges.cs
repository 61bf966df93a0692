using System.Data.Common;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Prepare;

/// <summary>Puts entries right: name, squad, withdrawn or not, and two that are one bowler. Every change is kept.</summary>
public static class EntryChanges
{
    private const string Merged = "merged into";

    /// <summary>Changes the name and the squad of an entry, where they differ. The name changes wherever the person is entered.</summary>
    public static void Set(WriteTransaction write, string eventId, Entry entry, string? name, string? squad, ChangedBy by)
    {
        if (name is not null && entry.Bowler is { } was && name != was)
        {
            Rename(write, eventId, entry.Number, entry.Person, (was, name), by);
        }

        if (squad != entry.Squad)
        {
            var to = new { eventId, entry.Number, squad };
            Execute(write, "UPDATE entry SET squad = @squad WHERE event = @eventId AND entry = @Number", to);
            Keep(write, eventId, entry.Number, "squad", (entry.Squad ?? "none", squad ?? "none"), by);
        }
    }

    /// <summary>Changes whether a bowler is under age, and how a guardian is reached. A change does not say the contact.</summary>
    public static void SetUnderAge(WriteTransaction write, string eventId, Entry entry, bool isUnderAge, string guardian, ChangedBy by)
    {
        if (isUnderAge != entry.IsUnderAge)
        {
            Execute(
                write, "UPDATE entry SET under_age = @underAge WHERE event = @eventId AND entry = @Number",
                new { eventId, entry.Number, underAge = isUnderAge ? 1 : 0 });
            Keep(write, eventId, entry.Number, "under age", isUnderAge ? ("no", "yes") : ("yes", "no"), by);
        }

        if (guardian != GuardianContacts.Of(write.Connection, write.Transaction, eventId, entry.Number))
        {
            GuardianContacts.Set(write, eventId, entry.Number, guardian);
            Keep(write, eventId, entry.Number, "contact of a guardian", (null, null), by);
        }
    }

    /// <summary>Withdraws an entry: it stays, nothing more of it is measured, and its place in the queue ends.</summary>
    public static void Withdraw(WriteTransaction write, string eventId, Entry entry, ChangedBy by)
    {
        Execute(write, "UPDATE entry SET withdrawn = 1 WHERE event = @eventId AND entry = @Number", new { eventId, entry.Number });
        LeaveQueue(write, eventId, entry.Number, by.At);
        Keep(write, eventId, entry.Number, "withdrawn", (null, null), by);
    }

    /// <summary>The number that an entry was merged into, where that one was merged further since; null for any other entry. The later
    /// merge is undone first.</summary>
    public static string? MergedBetween(DbConnection connection, DbTransaction? transaction, string eventId, Entry entry)
    {
        const string Sql =
            "SELECT became FROM event_change WHERE event = @eventId AND entry = @Number AND what = @Merged ORDER BY change DESC";
        var first = entry.MergedInto is null ? null
            : connection.QueryFirstOrDefault<string>(Sql, new { eventId, entry.Number, Merged }, transaction);
        return first == entry.MergedInto ? null : first;
    }

    /// <summary>Brings a withdrawn entry back. One that was merged is a bowler of its own again, under the name it had, with the entries
    /// that were merged into it before. Returns false and does nothing when a later merge is to be undone first.</summary>
    public static bool BringBack(WriteTransaction write, string eventId, Entry entry, ChangedBy by)
    {
        if (MergedBetween(write.Connection, write.Transaction, eventId, entry) is not null)
        {
            return false;
        }

        var at = new { eventId, entry.Number };
        const string First = "SELECT first_person FROM entry WHERE event = @eventId AND entry = @Number";
        var first = entry.MergedInto is null ? null : write.Connection.ExecuteScalar<string?>(First, at, write.Transaction);
        Execute(write, "UPDATE entry SET withdrawn = 0, merged_into = NULL WHERE event = @eventId AND entry = @Number", at);
        if (entry.MergedInto is { } kept)
        {
            var besides = Events.EntriesOf(write.Connection, eventId).Where(each => each.MergedInto == kept)
                .Select(each => (each.Number, Into: MergedBetween(write.Connection, write.Transaction, eventId, each)))
                .ToLookup(each => each.Into);
            var back = new List<string> { entry.Number };
            for (var i = 0; i < back.Count; i++)
            {
                back.AddRange(besides[back[i]].Select(each => each.Number));
            }

            Execute(
                write, "UPDATE entry SET merged_into = @Number WHERE event = @eventId AND entry = @other",
                back.Skip(1).Select(other => new { eventId, entry.Number, other }).ToList());
        }

        if (first is not null)
        {
            // Those who turned out to be this person stay this person.
            Execute(
                write,
                """
                WITH RECURSIVE same (id) AS (SELECT @first UNION SELECT p.id FROM person p JOIN same s ON p.same_as = s.id)
                UPDATE entry SET person = @first, first_person = CASE WHEN first_person = @first THEN NULL ELSE first_person END
                WHERE first_person IN (SELECT id FROM same)
                """,
                new { first });
            Execute(write, "UPDATE person SET same_as = NULL WHERE id = @first", new { first });
            const string Before = "SELECT was FROM changed_name WHERE person = @first ORDER BY change DESC";
            var was = write.Connection.QueryFirstOrDefault<string>(Before, new { first }, write.Transaction);
            if (was is not null && entry.Bowler is { } name && was != name)
            {
                Rename(write, eventId, entry.Number, PersonId.From(first), (name, was), by);
            }
        }

        Keep(write, eventId, entry.Number, "brought back", (null, null), by);
        return true;
    }

    /// <summary>Makes one of two entries that are the same bowler. Inspections stay recorded under the number that they have; unfinished
    /// sheets, the list of balls, balls in custody, the place in the queue and the person's entries at other events go over to the one
    /// that stays.</summary>
    /// <param name="write">The turn at the gate.</param>
    /// <param name="eventId">The event.</param>
    /// <param name="kept">The entry whose number and name stay.</param>
    /// <param name="other">The entry that is withdrawn.</param>
    /// <param name="by">Who merges them.</param>
    public static void Merge(WriteTransaction write, string eventId, Entry kept, Entry other, ChangedBy by)
    {
        var numbers = new { eventId, kept = kept.Number, other = other.Number };
        Execute(write, "UPDATE entry SET withdrawn = 1, merged_into = @kept WHERE event = @eventId AND entry = @other", numbers);
        Execute(write, "UPDATE entry SET merged_into = @kept WHERE event = @eventId AND merged_into = @other", numbers);
        Execute(write, "UPDATE unfinished_sheet SET entry = @kept WHERE event = @eventId AND entry = @other", numbers);
        Execute(write, "UPDATE custody SET entry = @kept WHERE event = @eventId AND entry = @other", numbers);
        Execute(write, "UPDATE entered_ball SET entry = @kept WHERE event = @eventId AND entry = @other", numbers);
        if (other.IsUnderAge)
        {
            Execute(write, "UPDATE entry SET under_age = 1 WHERE event = @eventId AND entry = @kept", numbers);
        }

        Execute(
            write,
            """
            UPDATE queue_place SET entry = @kept WHERE event = @eventId AND entry = @other AND state IN ('waiting', 'called', 'at-table')
              AND NOT EXISTS (SELECT 1 FROM queue_place q
                WHERE q.event = @eventId AND q.entry = @kept AND q.state IN ('waiting', 'called', 'at-table'))
            """,
            numbers);
        LeaveQueue(write, eventId, other.Number, by.At);
        if (other.Person != kept.Person)
        {
            // The other person's id and salt stay, because inspections were recorded with them; its name follows the one that stays.
            var people = new { kept = kept.Person.ToString(), other = other.Person.ToString() };
            Execute(
                write, "UPDATE entry SET first_person = coalesce(first_person, person), person = @kept WHERE person = @other", people);
            Execute(write, "UPDATE person SET same_as = @kept WHERE id = @other", people);
            if (other.Bowler is { } was && kept.Bowler is { } name && was != name)
            {
                Rename(write, eventId, other.Number, other.Person, (was, name), by);
            }
        }

        Keep(write, eventId, other.Number, Merged, (null, kept.Number), by);
        Keep(write, eventId, kept.Number, "merged with", (null, other.Number), by);
    }

    /// <summary>Enters one bowler and keeps who did it. Returns the number, or null when it is taken.</summary>
    public static string? Enter(WriteTransaction write, string eventId, NewEntry entry, ChangedBy by)
    {
        const string Sql = "SELECT entry FROM entry WHERE event = @eventId";
        var number = entry.Number.Length > 0 ? entry.Number
            : new EntryNumbers(write.Connection.Query<string>(Sql, new { eventId }, write.Transaction), []).Next();
        if (!Events.TryEnter(write, eventId, [entry with { Number = number }]))
        {
            return null;
        }

        Keep(write, eventId, number, "entered", (null, entry.Squad is null ? "without a squad" : $"squad {entry.Squad}"), by);
        return number;
    }

    private static void Rename(
        WriteTransaction write, string eventId, string entry, PersonId person, (string Was, string Became) names, ChangedBy by)
    {
        People.Rename(write, person, names.Became);
        EventChanges.KeepName(write, eventId, entry, person, names, by);
    }

    private static void LeaveQueue(WriteTransaction write, string eventId, string entry, DateTimeOffset at) => Execute(
        write,
        """
        UPDATE queue_place SET state = 'left', ended_at = @at
        WHERE event = @eventId AND entry = @entry AND state IN ('waiting', 'called', 'at-table')
        """,
        new { eventId, entry, at = UtcText.Of(at) });

    private static void Keep(
        WriteTransaction write, string eventId, string entry, string what, (string? Was, string? Became) change, ChangedBy by) =>
        EventChanges.Keep(write, new Change(eventId, entry, what, change.Was, change.Became), by);

    private static int Execute(WriteTransaction write, string sql, object values) =>
        write.Connection.Execute(sql, values, write.Transaction);
}
