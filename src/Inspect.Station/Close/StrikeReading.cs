using System.Data.Common;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.Close;

/// <summary>Reads what striking names would delete, wherever the store holds a name.</summary>
internal sealed class StrikeReading(DbConnection connection, DbTransaction? transaction, DateTimeOffset now)
{
    // Every id of a person who goes: those that turned out to be the same one too.
    private static readonly string Same = $"""
        WITH RECURSIVE same (id, kept) AS (
          SELECT id, id FROM person WHERE id IN (SELECT value FROM {EngineSql.Each("people")})
          UNION SELECT p.id, s.kept FROM person p JOIN same s ON p.same_as = s.id)
        """;

    private static readonly string TheirEntries = $"e.person IN (SELECT value FROM {EngineSql.Each("people")})";

    /// <summary>Reads the plan for an event, or for one of its entries.</summary>
    public StrikePlan Plan(Event held, string? entry)
    {
        var (people, stays) = Who(held, entry);
        var plan = new StrikePlan
        {
            People = [.. people.Select(PersonId.From)],
            Stays = stays,
            Refusal = held.To < held.DayAt(now) ? null
                : $"{held.Name} ends on {EventWords.Day(held.To)}; names can be struck from the day after on.",
        };
        var among = new { people = EngineSql.List(people), held.Id, entry };
        plan = plan with
        {
            Guardians = Read<(string, string)>(
                $"""
                SELECT g.event, g.entry FROM guardian_contact g JOIN entry e ON e.event = g.event AND e.entry = g.entry
                WHERE {TheirEntries} OR (g.event = @Id AND @entry IS NULL) ORDER BY g.event, g.entry
                """, among),
        };
        if (people.Count == 0)
        {
            return plan;
        }

        var names = new NamesOfPeople(connection.Query<(string, string)>(
            $"""
            {Same} SELECT s.kept, p.name FROM same s JOIN person p ON p.id = s.id WHERE p.name IS NOT NULL
            UNION SELECT s.kept, c.was FROM same s JOIN changed_name c ON c.person = s.id
            UNION SELECT s.kept, c.became FROM same s JOIN changed_name c ON c.person = s.id
            """, among, transaction));
        var remarks = Remarks(names, among);
        return plan with
        {
            EarlierNames = connection.ExecuteScalar<long>(
                $"{Same} SELECT count(*) FROM changed_name WHERE person IN (SELECT id FROM same)", among, transaction),
            Remarks = remarks,
            Photographs = Read<long>(
                $"""
                SELECT p.seq FROM photograph p JOIN photograph_index x ON x.seq = p.seq JOIN inspection_index i ON i.number = x.inspection
                JOIN entry e ON e.event = i.event AND e.entry = i.entry WHERE {TheirEntries}
                """, among),
            Reports = ReportsThatQuote(remarks),
            Unfinished = Read<string>(
                $"""
                SELECT u.form FROM unfinished_sheet u JOIN entry e ON e.event = u.event AND e.entry = u.entry WHERE {TheirEntries}
                """, among),
        };
    }

    // Everyone entered whose name is still there, and why some of them stay.
    private (List<string> Go, List<StayingName> Stay) Who(Event held, string? entry)
    {
        var entered = connection.Query<(string Number, string Person, string Name, long SignsIn)>(
            """
            SELECT e.entry, p.id, p.name, EXISTS (SELECT 1 FROM sign_in s WHERE s.person = p.id)
            FROM entry e JOIN person p ON p.id = e.person
            WHERE e.event = @Id AND p.name IS NOT NULL AND (@entry IS NULL OR e.entry = @entry) ORDER BY e.entry
            """, new { held.Id, entry }, transaction).AsList();
        var elsewhere = connection.Query<(string Person, string Event)>(
            """
            SELECT DISTINCT o.person, o.event FROM entry e JOIN entry o ON o.person = e.person AND o.event <> e.event
            WHERE e.event = @Id AND (@entry IS NULL OR e.entry = @entry) ORDER BY o.person, o.event
            """, new { held.Id, entry }, transaction).ToLookup(row => row.Person, row => row.Event);
        var needed = elsewhere.SelectMany(events => events).Distinct().ToDictionary(id => id, id => WhyKept(id, entry is not null));
        var stay = entered
            .Select(row => (row, Why: row.SignsIn == 1 ? "Signs in at this station."
                : elsewhere[row.Person].Select(id => needed[id]).FirstOrDefault(why => why is not null)))
            .Where(each => each.Why is not null)
            .Select(each => (each.row.Person, Stays: new StayingName(each.row.Number, each.row.Name, each.Why!))).ToList();
        return ([.. entered.Select(row => row.Person).Except(stay.Select(each => each.Person))], [.. stay.Select(each => each.Stays)]);
    }

    // Why another event still needs the names of its bowlers; null when it does not. One bowler's name goes once all events are over.
    private string? WhyKept(string id, bool isOneBowler)
    {
        var other = Events.Find(connection, id, transaction)!;
        var today = other.DayAt(now);
        return other.To >= today ? $"Entered at {other.Name}, which ends on {EventWords.Day(other.To)}."
            : isOneBowler || NamesKept.AreDue(other, today) || EventChanges.LastStrike(connection, transaction, id) is not null ? null
            : other.NamesDue is { } due ? $"Entered at {other.Name}, where names are kept until {EventWords.Day(due)}."
            : $"Entered at {other.Name}, where no time is set; strike that event's names too, or this bowler's alone.";
    }

    // A remark names somebody when all words of a name stand in it, or any of them in a remark on that bowler's own ball.
    private IReadOnlyList<RemarkKey> Remarks(NamesOfPeople names, object among)
    {
        var all = connection.Query<(string Person, string Hash, string Text)>(
            "SELECT person, hash, text FROM remark", null, transaction, buffered: false)
            .Select(row => (Key: new RemarkKey(row.Person, row.Hash), row.Text, People: names.WithAWordIn(row.Text)))
            .Where(remark => remark.People.Count > 0).ToList();
        if (all.Count == 0)
        {
            return [];
        }

        var own = connection.Query<(string Person, long Seq, byte[] Body, byte[] Leaf)>(
            $"""
            SELECT e.person, {Register.Entry("r")} FROM inspection_index i JOIN entry e ON e.event = i.event AND e.entry = i.entry
            JOIN register_entry r ON r.seq = i.seq WHERE {TheirEntries}
            """, among, transaction, buffered: false)
            .SelectMany(row => RemarksOn(InspectionBody.Read(Register.Whole(row.Seq, row.Body, row.Leaf))).Select(key => (row.Person, key)))
            .Concat(connection.Query<(string Person, string By, string Reason, string? Condition)>(
                $"""
                SELECT e.person, r.by_person, r.reason_hash, r.condition_hash FROM ruling_index r
                JOIN inspection_index i ON i.seq = r.inspection_seq JOIN entry e ON e.event = i.event AND e.entry = i.entry WHERE {TheirEntries}
                """, among, transaction)
                .SelectMany(row => new[] { row.Reason, row.Condition }.OfType<string>()
                    .Select(hash => (row.Person, new RemarkKey(row.By, hash)))))
            .Concat(connection.Query<(string Person, string By, string Remark)>(
                $"""
                SELECT e.person, c.by_person, c.remark_hash FROM spot_check_index c JOIN inspection_index i ON i.number = c.number
                JOIN entry e ON e.event = i.event AND e.entry = i.entry WHERE c.remark_hash IS NOT NULL AND {TheirEntries}
                """, among, transaction)
                .Select(row => (row.Person, new RemarkKey(row.By, row.Remark))))
            .ToHashSet();
        return [.. all.Where(remark => names.IsNamedIn(remark.Text) || remark.People.Any(person => own.Contains((person, remark.Key))))
            .Select(remark => remark.Key)];
    }

    // A closing report names bowlers only in the reasons and conditions of rulings, and in the remarks of spot checks that were open.
    private IReadOnlyList<long> ReportsThatQuote(IReadOnlyList<RemarkKey> remarks)
    {
        if (remarks.Count == 0)
        {
            return [];
        }

        var struck = remarks.ToHashSet();
        var events = connection.Query<(string Event, string By, string Reason, string? Condition)>(
            "SELECT event, by_person, reason_hash, condition_hash FROM ruling_index", null, transaction, buffered: false)
            .Where(ruling => struck.Contains(new RemarkKey(ruling.By, ruling.Reason))
                || (ruling.Condition is { } condition && struck.Contains(new RemarkKey(ruling.By, condition))))
            .Select(ruling => ruling.Event)
            .Concat(connection.Query<(string Event, string By, string Remark)>(
                "SELECT event, by_person, remark_hash FROM spot_check_index WHERE remark_hash IS NOT NULL", null, transaction)
                .Where(check => struck.Contains(new RemarkKey(check.By, check.Remark))).Select(check => check.Event))
            .ToHashSet(StringComparer.Ordinal);
        return [.. connection.Query<(long Seq, string Event)>(
            "SELECT f.seq, r.event FROM report_file f JOIN report_index r ON r.seq = f.seq", null, transaction)
            .Where(report => events.Contains(report.Event)).Select(report => report.Seq)];
    }

    private static IEnumerable<RemarkKey> RemarksOn(Inspection inspection) => inspection.NotMeasured.Select(left => left.ReasonHash)
        .Append(inspection.WorkDoneHash).Append(inspection.List?.ReasonHash).OfType<string>()
        .Select(hash => new RemarkKey(inspection.By.Person.ToString(), hash));

    private List<T> Read<T>(string sql, object values) => connection.Query<T>(sql, values, transaction).AsList();
}
