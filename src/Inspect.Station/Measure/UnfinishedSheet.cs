using Inspect.Sheets.Form;
using Inspect.Station.Access;

namespace Inspect.Station.Measure;

/// <summary>A sheet that is still being measured, as the station keeps it so that any table can continue it.</summary>
/// <param name="Form">The key of its form.</param>
/// <param name="Event">The event.</param>
/// <param name="Entry">The bowler's number.</param>
/// <param name="Supersedes">The inspection it would replace.</param>
/// <param name="Ball">The ball that was judged earlier with another grip.</param>
/// <param name="Fields">What was typed, with who typed it.</param>
/// <param name="Revision">Grows with each change.</param>
/// <param name="TouchedBy">Who typed last.</param>
/// <param name="Table">At which table, if it was named.</param>
/// <param name="TouchedAt">When.</param>
public sealed record UnfinishedSheet(
    string Form, string Event, string Entry, string? Supersedes, string? Ball, IReadOnlyDictionary<string, KeptField> Fields, long Revision,
    PersonId TouchedBy, string? Table, DateTimeOffset TouchedAt)
{
    /// <summary>The form as it is filled in now.</summary>
    public TypedFields Typed => TypedFields.Of(Fields.Select(one => KeyValuePair.Create(one.Key, one.Value.Values)));

    /// <summary>The value of a table's instrument field at the time the given field was typed; null when unknown or when the
    /// field was changed since.</summary>
    public string? UseOf(string field, IReadOnlyList<string> values, string use) =>
        Fields.GetValueOrDefault(field) is { } kept && kept.Values.SequenceEqual(values, StringComparer.Ordinal)
            ? kept.Use?.GetValueOrDefault(use) ?? ""
            : null;

    /// <summary>Maker, model and serial, as far as they are filled in.</summary>
    public string BallWords =>
        string.Join(' ', new[] { "ball.maker", "ball.model", "ball.serial" }.Select(Typed.One).Where(text => text.Length > 0));

    /// <summary>What is measured so far, in the order of the form.</summary>
    public IEnumerable<string> Measured =>
        FormFields.Readings.Where(reading => Typed.One(reading.Path).Length > 0).Select(reading => reading.Label);
}

/// <summary>The content of one field of an unfinished sheet.</summary>
/// <param name="Values">As typed; empty when the field was emptied.</param>
/// <param name="Revision">The revision it was typed in.</param>
/// <param name="By">Who typed it: the opaque id.</param>
/// <param name="Table">At which table.</param>
/// <param name="Page">The open page it was typed on, so that a page is not told of its own changes.</param>
/// <param name="Use">The instruments in use at that table, by the names of their fields; null when none was chosen.</param>
public sealed record KeptField(
    string[] Values, long Revision, string By, string? Table, string? Page, IReadOnlyDictionary<string, string>? Use = null);

/// <summary>What a page sends to have its sheet saved.</summary>
/// <param name="Form">The form's key.</param>
/// <param name="Event">The event.</param>
/// <param name="Entry">The bowler's number.</param>
/// <param name="Supersedes">The inspection it would replace.</param>
/// <param name="Ball">The ball that was judged earlier with another grip.</param>
/// <param name="Typed">The fields of the form.</param>
/// <param name="Base">The last revision that the page has; 0 for none.</param>
/// <param name="Changed">The fields changed on the page since then; null when the page cannot tell, and then every
/// field counts as changed.</param>
/// <param name="Table">At which table.</param>
/// <param name="Page">The open page.</param>
public sealed record SheetToKeep(
    string Form, string Event, string Entry, string? Supersedes, string? Ball, TypedFields Typed, long Base, IReadOnlySet<string>? Changed,
    string? Table, string? Page)
{
    private const int LongestTable = 40;

    /// <summary>Reads from a form what is needed to save it.</summary>
    public static SheetToKeep Of(OpenForm sent, IFormCollection form) => new(
        sent.Key, sent.Held.Id, sent.Entry.Number, sent.Supersedes, sent.Ball, sent.Fields,
        long.TryParse(
            form["revision"], System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var revision)
            ? revision
            : 0,
        form.ContainsKey("changed")
            ? form["changed"].ToString().Split(' ', StringSplitOptions.RemoveEmptyEntries).ToHashSet(StringComparer.Ordinal)
            : null,
        form["table"].ToString().Trim() is { Length: > 0 } table ? table[..Math.Min(table.Length, LongestTable)] : null,
        form["page"].ToString() is { Length: > 0 and <= 32 } page ? page : null);
}

/// <summary>A field that somebody else typed into.</summary>
/// <param name="Name">The field.</param>
/// <param name="Kept">What the station has for it.</param>
/// <param name="IsConflict">Whether it was also changed on this page, so that a person has to choose.</param>
public sealed record FieldOfAnother(string Name, KeptField Kept, bool IsConflict);

/// <summary>The result of saving a sheet.</summary>
/// <param name="Revision">The revision that the page now has.</param>
/// <param name="OfOthers">What others typed in the meantime.</param>
/// <param name="Recorded">The number of the inspection, if this form was already recorded; then nothing is saved.</param>
public sealed record KeptSheet(long Revision, IReadOnlyList<FieldOfAnother> OfOthers, string? Recorded = null);
