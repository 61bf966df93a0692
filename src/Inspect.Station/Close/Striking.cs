using System.Data.Common;
using Dapper;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.Close;

/// <summary>Strikes the names of an event's bowlers, with all that names them. The register keeps its hashes, and nobody can test a guess
/// against them any more.</summary>
public sealed class Striking(Database database, WriteGate gate, TimeProvider time)
{
    /// <summary>What striking would delete now.</summary>
    /// <param name="held">The event.</param>
    /// <param name="entry">The number of the one bowler whose name is to go; null for all of the event.</param>
    public StrikePlan Plan(Event held, string? entry = null)
    {
        using var connection = database.OpenForReading();
        return Plan(connection, null, held, entry);
    }

    /// <summary>Strikes what a plan says. Returns what was struck; null, and nothing is, when more or fewer names would go than were
    /// shown, or when none can go yet.</summary>
    /// <param name="held">The event.</param>
    /// <param name="entry">The number of the one bowler; null for all of the event.</param>
    /// <param name="shown">How many names were shown.</param>
    /// <param name="by">Who strikes them.</param>
    public Task<StrikePlan?> Strike(Event held, string? entry, int shown, ChangedBy by) => gate.Run(write =>
    {
        write.Connection.Execute(EngineSql.OverwriteDeleted, null, write.Transaction);
        var plan = Plan(write.Connection, write.Transaction, held, entry);
        if (plan.Refusal is not null || plan.People.Count != shown)
        {
            return null;
        }

        if (plan.People.Count > 0)
        {
            Delete(write, plan);
            EventChanges.Keep(
                write, new Change(held.Id, entry, entry is null ? EventChanges.NamesStruck : "name struck", null,
                    string.Join(", ", plan.Counted)), by);
        }

        return plan;
    });

    /// <summary>Strikes the contacts of guardians of an event alone, once it is over. Returns how many there were.</summary>
    public Task<int> StrikeGuardians(Event held, ChangedBy by) => gate.Run(write =>
    {
        if (Plan(write.Connection, write.Transaction, held, null).Refusal is not null)
        {
            return 0;
        }

        write.Connection.Execute(EngineSql.OverwriteDeleted, null, write.Transaction);
        var struck = GuardianContacts.Strike(write, held.Id);
        if (struck > 0)
        {
            EventChanges.Keep(write, new Change(held.Id, null, GuardianContacts.Struck, null, $"{struck}"), by);
        }

        return struck;
    });

    /// <summary>Writes the store anew, so that what was struck is in none of its files.</summary>
    public Task Rewrite() => gate.Rewrite();

    private StrikePlan Plan(DbConnection connection, DbTransaction? transaction, Event held, string? entry) =>
        new StrikeReading(connection, transaction, time.GetUtcNow()).Plan(held, entry);

    private static void Delete(WriteTransaction write, StrikePlan plan)
    {
        // The triggers of the store delete the words of the names, the earlier names, and the names of those who are the same person.
        Each("UPDATE person SET name = NULL, salt = NULL WHERE id = @id", plan.People.Select(id => new { id = id.ToString() }));
        Each("DELETE FROM remark WHERE person = @Person AND hash = @Hash", plan.Remarks.Select(key => new { key.Person, key.Hash }));
        Each("DELETE FROM photograph WHERE seq = @seq", plan.Photographs.Select(seq => new { seq }));
        Each("DELETE FROM report_file WHERE seq = @seq", plan.Reports.Select(seq => new { seq }));
        Each("DELETE FROM guardian_contact WHERE event = @Event AND entry = @Entry",
            plan.Guardians.Select(one => new { one.Event, one.Entry }));
        Each("DELETE FROM unfinished_sheet WHERE form = @form", plan.Unfinished.Select(form => new { form }));

        void Each(string sql, IEnumerable<object> rows) => write.Connection.Execute(sql, rows, write.Transaction);
    }
}
