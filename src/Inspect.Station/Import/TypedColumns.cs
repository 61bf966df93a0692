using System.Globalization;
using Inspect.Station.Prepare;
using Inspect.Station.Web;

namespace Inspect.Station.Import;

/// <summary>What a person says of a list: which sheet, which row has the heads, and what each column is.</summary>
/// <param name="Sheet">The sheet; null for the first with rows.</param>
/// <param name="Matching">What its columns are; null where the station is to find out.</param>
/// <param name="Said">The same, where the person said it of each column and nothing is wrong.</param>
internal sealed record TypedColumns(int? Sheet, Matching? Matching, Matching? Said)
{
    /// <summary>The form field of the sheet.</summary>
    public const string SheetField = "sheet";

    /// <summary>The form field of the row with the heads.</summary>
    public const string HeadsField = "heads";

    /// <summary>The form field that leaves hidden rows out.</summary>
    public const string HiddenField = "hidden";

    /// <summary>Reads the form. Another sheet, or another row of heads with the columns untouched, is found out anew.</summary>
    public static TypedColumns Of(IFormCollection form, ImportLook shown, Event into, Faults faults)
    {
        if (Number(form[SheetField]) is { } sheet && sheet != shown.Table.Sheet && sheet >= 0 && sheet < shown.Table.Sheets.Count)
        {
            return new TypedColumns(sheet, null, null);
        }

        var heads = Number(form[HeadsField]);
        var leaves = form.ContainsKey(HiddenField);
        IReadOnlyList<ImportColumn> columns =
            [.. shown.Matching.Columns.Index().Select(each => ImportColumns.Of(form[Matching.Field(each.Index)]))];
        if (heads != shown.Matching.HeadsRow && columns.SequenceEqual(shown.Matching.Columns))
        {
            return new TypedColumns(
                shown.Held.Sheet, Matcher.WithHeads(shown.Table, heads, into.Squads) with { LeavesHidden = leaves }, null);
        }

        var said = new Matching(heads, columns, leaves, IsSure: true);
        said.Check(faults);
        return new TypedColumns(shown.Held.Sheet, said, faults.AreNone ? said : null);
    }

    private static int? Number(string? text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
}
