using Inspect.Sheets.Form;
using Inspect.Station.Access;

namespace Inspect.Station.Measure;

/// <summary>A sheet that is being measured, as the station keeps it between tables.</summary>
/// <param name="Form">The key of its form.</param>
/// <param name="Event">The event.</param>
/// <param name="Entry">The bowler's number.</param>
/// <param name="Supersedes">The inspection it would replace.</param>
/// <param name="Ball">The ball judged before with another grip.</param>
/// <param name="Fields">What was typed, with who typed it.</param>
/// <param name="Revision">Grows with each change.</param>
/// <param name="TouchedBy">Who typed last.</param>
/// <param name="Table">At which table, where it was given.</param>
/// <param name="TouchedAt">When.</param>
public sealed record UnfinishedSheet(
    string Form, string Event, string Entry, string? Supersedes, string? Ball, IReadOnlyDictionary<string, KeptField> Fields, long Revision,
    PersonId TouchedBy, string? Table, DateTimeOffset TouchedAt)
{
    /// <summary>What stands in it.</summary>
    public TypedFields Typed => TypedFields.Of(Fields.Select(one => KeyValuePair.Create(one.Key, one.Value.Values)));

    /// <summary>What a table's field about its instruments said when a field was typed that still stands as it was; null where that is unknown.</summary>
    public string? UseOf(string field, IReadOnlyList<string> values, string use) =>
        Fields.GetValueOrDefault(field) is { } kept && kept.Values.SequenceEqual(values, StringComparer.Ordinal) ? kept.Use?.GetValueOrDefault(use) ?? "" : null;

    /// <summary>The ball as far as it is written down.</summary>
    public string BallWords => string.Join(' ', new[] { "ball.maker", "ball.model", "ball.serial" }.Select(Typed.One).Where(text => text.Length > 0));

    /// <summary>What is measured so far, in the order of the form.</summary>
    public IEnumerable<string> Measured => FormFields.Readings.Where(reading => Typed.One(reading.Path).Length > 0).Select(reading => reading.Label);
}

/// <summary>What stands in one field of an unfinished sheet.</summary>
/// <param name="Values">As typed; none once it was emptied.</param>
/// <param name="Revision">The revision it was typed in.</param>
/// <param name="By">Who typed it: the opaque id.</param>
/// <param name="Table">At which table.</param>
/// <param name="Page">The open page it was typed on: what a page wrote itself is no news to it.</param>
/// <param name="Use">The instruments in use at that table, by the names of their fields; null where none was chosen.</param>
public sealed record KeptField(string[] Values, long Revision, string By, string? Table, string? Page, IReadOnlyDictionary<string, string>? Use = null);

/// <summary>What a page sends to have its sheet kept.</summary>
/// <param name="Form">The form's key.</param>
/// <param name="Event">The event.</param>
/// <param name="Entry">The bowler's number.</param>
/// <param name="Supersedes">The inspection it would replace.</param>
/// <param name="Ball">The ball judged before with another grip.</param>
/// <param name="Typed">What stands in the form.</param>
/// <param name="Base">The revision the page last knew; 0 for none.</param>
/// <param name="Changed">The fields changed on the page since then; null where the page cannot tell, and every field counts.</param>
/// <param name="Table">At which table.</param>
/// <param name="Page">The open page.</param>
public sealed record SheetToKeep(
    string Form, string Event, string Entry, string? Supersedes, string? Ball, TypedFields Typed, long Base, IReadOnlySet<string>? Changed, string? Table, string? Page)
{
    private const int LongestTable = 40;

    /// <summary>What a form says of how it is to be kept.</summary>
    public static SheetToKeep Of(SentForm sent, IFormCollection form) => new(
        sent.Key, sent.Held.Id, sent.Entry.Number, sent.Supersedes, sent.Ball, sent.Typed.Fields,
        long.TryParse(form["revision"], System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var revision) ? revision : 0,
        form.ContainsKey("changed") ? form["changed"].ToString().Split(' ', StringSplitOptions.RemoveEmptyEntries).ToHashSet(StringComparer.Ordinal) : null,
        form["table"].ToString().Trim() is { Length: > 0 } table ? table[..Math.Min(table.Length, LongestTable)] : null,
        form["page"].ToString() is { Length: > 0 and <= 32 } page ? page : null);
}

/// <summary>A field that somebody else typed into.</summary>
/// <param name="Name">The field.</param>
/// <param name="Kept">What stands in it at the station.</param>
/// <param name="IsConflict">Whether it was changed here as well, so that someone has to choose.</param>
public sealed record FieldOfAnother(string Name, KeptField Kept, bool IsConflict);

/// <summary>What came of keeping a sheet.</summary>
/// <param name="Revision">The revision the page now knows.</param>
/// <param name="OfOthers">What others typed meanwhile.</param>
/// <param name="Recorded">The number under which this form was recorded already; nothing is kept then.</param>
public sealed record KeptSheet(long Revision, IReadOnlyList<FieldOfAnother> OfOthers, string? Recorded = null);
