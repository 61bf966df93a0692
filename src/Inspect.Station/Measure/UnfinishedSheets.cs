using System.Data.Common;
using System.Text.Json;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.Measure;

/// <summary>Saves sheets while they are measured. When two tables type into the same sheet, it is merged field by field.</summary>
public sealed partial class UnfinishedSheets(Database database, WriteGate gate, TimeProvider time, ILogger<UnfinishedSheets> log)
{
    private const string Columns = """
        SELECT form AS Form, event AS Event, entry AS Entry, supersedes AS Supersedes, ball AS Ball, typed AS Typed, revision AS Revision,
               touched_by AS TouchedBy, touched_table AS TouchedTable, touched_at AS TouchedAt
        FROM unfinished_sheet
        """;

    /// <summary>The sheet of a form's key, or null.</summary>
    public UnfinishedSheet? Find(string form)
    {
        using var connection = database.OpenForReading();
        return Find(connection, null, form);
    }

    /// <summary>The unfinished sheets of an event, the last changed first.</summary>
    public IReadOnlyList<UnfinishedSheet> OfEvent(string eventId)
    {
        using var connection = database.OpenForReading();
        return [.. connection.Query<SheetRow>($"{Columns} WHERE event = @eventId ORDER BY touched_at DESC, form", new { eventId })
            .Select(row => row.ToDomain())];
    }

    /// <summary>The unfinished sheets of one entry, the last changed first.</summary>
    public IReadOnlyList<UnfinishedSheet> OfEntry(string eventId, string entry) =>
        [.. OfEvent(eventId).Where(sheet => sheet.Entry == entry)];

    /// <summary>The number of the inspection that a form was recorded as, by any inspector; null when it was not.</summary>
    public string? RecordedAs(string form)
    {
        using var connection = database.OpenForReading();
        return RecordedAs(connection, null, form);
    }

    /// <summary>Saves the fields of a form. What others typed since is kept and returned.</summary>
    public async Task<KeptSheet> Keep(SignedIn by, SheetToKeep sent)
    {
        using (var connection = database.OpenForReading())
        {
            if (RecordedAs(connection, null, sent.Form) is { } number)
            {
                return new KeptSheet(sent.Base, [], number);
            }

            var (changes, others) = Compare(Find(connection, null, sent.Form), sent);
            if (changes.Count == 0)
            {
                return new KeptSheet(Find(connection, null, sent.Form)?.Revision ?? 0, others);
            }
        }

        return await gate.Run(write => Keep(write, by, sent));
    }

    /// <summary>Why a sheet cannot be given to another entry, in a sentence; null when it can.</summary>
    /// <param name="events">Finds the entry.</param>
    /// <param name="sheet">The form, whose entry has the readings now.</param>
    /// <param name="target">The number of the other entry, as typed.</param>
    public string? RefusalToMove(Events events, OpenForm sheet, string target)
    {
        using var connection = database.OpenForReading();
        var replaced = sheet.Supersedes is not null && InspectionNumber.TryParse(sheet.Supersedes, out var number)
            ? InspectionLookup.Find(connection, number, null) : null;
        return sheet.Ball is not null || (replaced is not null && !FormOpening.IsWithdrawn(replaced))
            ? $"This sheet is of a ball that entry {sheet.Entry.Number} has already; "
                + "have its record withdrawn first if it is another bowler's."
            : EntryAddress.NoOther(events, sheet.Held, sheet.Entry.Number, target);
    }

    /// <summary>Saves the fields of a form and gives the sheet to another entry.</summary>
    public Task<KeptSheet> Move(SignedIn by, SheetToKeep sent, string entry) => gate.Run(write =>
    {
        var kept = Keep(write, by, sent);
        Move(write, sent.Form, entry);
        return kept;
    });

    /// <summary>Gives a sheet as it is kept to another entry.</summary>
    public Task Move(string form, string entry) => gate.Run(write => Move(write, form, entry));

    private static int Move(WriteTransaction write, string form, string entry) => write.Connection.Execute(
        "UPDATE unfinished_sheet SET entry = @entry WHERE form = @form",
        new { form, entry },
        write.Transaction);

    /// <summary>What others typed into a sheet and this form would lose: nothing is recorded until a person has chosen.</summary>
    public IReadOnlyList<FieldOfAnother> Unchosen(SheetToKeep sent) => Find(sent.Form) is { } kept ? Compare(kept, sent).Others : [];

    /// <summary>Discards a sheet.</summary>
    public Task Discard(string form) => gate.Run(write => Remove(write, form));

    /// <summary>Removes the sheet of a form that was recorded.</summary>
    internal static void Recorded(WriteTransaction write, RecordedJustNow recorded)
    {
        if (recorded.Form is { } form)
        {
            Remove(write, form);
        }
    }

    private static int Remove(WriteTransaction write, string form) =>
        write.Connection.Execute("DELETE FROM unfinished_sheet WHERE form = @form", new { form }, write.Transaction);

    private KeptSheet Keep(WriteTransaction write, SignedIn by, SheetToKeep sent)
    {
        if (RecordedAs(write.Connection, write.Transaction, sent.Form) is { } number)
        {
            return new KeptSheet(sent.Base, [], number);
        }

        var before = Find(write.Connection, write.Transaction, sent.Form);
        var (changes, others) = Compare(before, sent);
        var revision = (before?.Revision ?? 0) + 1;
        var fields = new SortedDictionary<string, KeptField>(before?.Fields.ToDictionary() ?? [], StringComparer.Ordinal);
        var use = sent.Typed.All.Where(field => field.Key.StartsWith("use.", StringComparison.Ordinal))
            .ToDictionary(field => field.Key, field => field.Value[0]);
        foreach (var (name, values) in changes)
        {
            fields[name] = new KeptField(values, revision, by.Person.ToString(), sent.Table, sent.Page, use.Count > 0 ? use : null);
        }

        const string Sql = """
            INSERT INTO unfinished_sheet (form, event, entry, supersedes, ball, typed, revision, touched_by, touched_table, touched_at)
            VALUES (@Form, @Event, @Entry, @Supersedes, @Ball, @typed, @revision, @person, @Table, @at)
            ON CONFLICT (form) DO UPDATE SET typed = excluded.typed, revision = excluded.revision, touched_by = excluded.touched_by,
              touched_table = excluded.touched_table, touched_at = excluded.touched_at
            """;
        var (typed, person, at) = (JsonSerializer.Serialize(fields), by.Person.ToString(), UtcText.Of(time.GetUtcNow()));
        write.Connection.Execute(
            Sql,
            new { sent.Form, sent.Event, sent.Entry, sent.Supersedes, sent.Ball, typed, revision, person, sent.Table, at },
            write.Transaction);
        if (others.Count(other => other.IsConflict) is > 0 and var conflicts)
        {
            ChangedTwice(sent.Event, conflicts);
        }

        Calls.Begun(write, sent.Event, sent.Entry, by.Person, sent.Table);
        return new KeptSheet(revision, others);
    }

    [LoggerMessage(
        Level = LogLevel.Information,
        Message = "Two pages changed {Fields} fields of the same unfinished sheet in {Event}; a person has to choose")]
    private partial void ChangedTwice(string @event, int fields);

    /// <summary>The fields to write from a form, and the fields that others typed and the form does not have.</summary>
    private static (List<KeyValuePair<string, string[]>> Changes, List<FieldOfAnother> Others) Compare(
        UnfinishedSheet? kept, SheetToKeep sent)
    {
        var (changes, others) = (new List<KeyValuePair<string, string[]>>(), new List<FieldOfAnother>());
        // Which instruments are in use belongs to a table, not to the sheet: each field remembers what was in use when it was typed.
        foreach (var name in sent.Typed.All.Select(field => field.Key).Union(kept?.Fields.Keys ?? [])
            .Where(name => !name.StartsWith("use.", StringComparison.Ordinal)))
        {
            string[] mine = [.. sent.Typed.Several(name)];
            var theirs = kept?.Fields.GetValueOrDefault(name);
            var isMine = sent.Changed?.Contains(name) ?? true;
            if (mine.AsSpan().SequenceEqual(theirs?.Values ?? []) || (theirs is null && !isMine))
            {
                continue;
            }

            // A page without script cannot tell an untouched empty field from an emptied one: what another person typed is kept.
            var isNews = theirs is not null && theirs.Revision > sent.Base && (sent.Page is null || theirs.Page != sent.Page);
            if (isMine && !isNews)
            {
                changes.Add(KeyValuePair.Create(name, mine));
            }
            else
            {
                others.Add(new FieldOfAnother(name, theirs!, isMine && (sent.Changed is not null || mine.Length > 0)));
            }
        }

        return (changes, others);
    }

    private static UnfinishedSheet? Find(DbConnection connection, DbTransaction? transaction, string form) =>
        connection.QuerySingleOrDefault<SheetRow>($"{Columns} WHERE form = @form", new { form }, transaction)?.ToDomain();

    private static string? RecordedAs(DbConnection connection, DbTransaction? transaction, string form) =>
        connection.QueryFirstOrDefault<string>(
            "SELECT i.number FROM idempotency k JOIN inspection_index i ON i.seq = k.seq WHERE k.key = @form", new { form }, transaction);

    private sealed record SheetRow(
        string Form, string Event, string Entry, string? Supersedes, string? Ball, string Typed, long Revision, string TouchedBy,
        string? TouchedTable, string TouchedAt)
    {
        public UnfinishedSheet ToDomain() => new(
            Form, Event, Entry, Supersedes, Ball, JsonSerializer.Deserialize<Dictionary<string, KeptField>>(Typed)!, Revision,
            PersonId.From(TouchedBy), TouchedTable,
            UtcText.Parse(TouchedAt));
    }
}
