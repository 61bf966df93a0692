using System.Text.RegularExpressions;
using Inspect.Station.Prepare;

namespace Inspect.Station.Import;

/// <summary>Finds out which row has the heads and what each column is: by heads that are remembered, by heads that are known, or by
/// what stands in the cells.</summary>
public static partial class Matcher
{
    /// <summary>How far down the heads may stand.</summary>
    private const int Searched = 20;

    /// <summary>How many rows show what a column is.</summary>
    private const int Looked = 300;

    // So many of the cells must look like it.
    private const double Most = .8;
    private const double Many = .6;

    // Squads that the event does not have are refused by name, if the column is taken for the squads.
    private const double Half = .5;

    /// <summary>The rows that may be the heads.</summary>
    public static IEnumerable<TableRow> MayBeHeads(ImportTable table) => table.Rows.Take(Searched);

    /// <summary>What the columns are taken for.</summary>
    /// <param name="table">What was read.</param>
    /// <param name="squads">The squads of the event.</param>
    /// <param name="remembered">What a person said of a row of heads; null when nobody did.</param>
    public static Matching Of(ImportTable table, IReadOnlyList<Squad> squads, Func<TableRow, IReadOnlyList<ImportColumn>?> remembered)
    {
        foreach (var row in MayBeHeads(table))
        {
            if (remembered(row) is { } said)
            {
                var columns = said.Select(each => each == ImportColumn.Squad && squads.Count == 0 ? ImportColumn.Ignored : each);
                return new Matching(row.Number, Filled(columns, table), false, IsSure: true);
            }
        }

        var heads = MayBeHeads(table).FirstOrDefault(AreHeads)
            ?? MayBeHeads(table).Where(row => row.Cells.Count > 1).Take(1).FirstOrDefault(MayBeNamed);
        return heads is null ? ByCells(table, squads) : ByHeads(table, heads, squads);
    }

    /// <summary>What the columns are when a person says which row has the heads, or that none has.</summary>
    public static Matching WithHeads(ImportTable table, int? headsRow, IReadOnlyList<Squad> squads) =>
        table.Rows.FirstOrDefault(row => row.Number == headsRow) is { } heads && AreHeads(heads) ? ByHeads(table, heads, squads)
            : ByCells(table, squads) with { HeadsRow = headsRow };

    private static bool AreHeads(TableRow row)
    {
        var known = row.Cells.Select(ImportColumns.OfHead).ToList();
        return known.Exists(ImportColumns.IsOfName) && (known.Count(each => each != ImportColumn.Ignored) > 1 || row.Cells.Count == 1);
    }

    // One head that is known, on top of columns that nobody needs.
    private static bool MayBeNamed(TableRow row) =>
        row.Cells.Any(cell => ImportColumns.OfHead(cell).IsOfName()) && !row.Cells.Any(cell => cell.Any(char.IsAsciiDigit));

    private static Matching ByHeads(ImportTable table, TableRow heads, IReadOnlyList<Squad> squads)
    {
        var columns = new List<ImportColumn>();
        foreach (var head in heads.Cells)
        {
            var column = ImportColumns.OfHead(head);
            columns.Add(columns.Contains(column) || (column == ImportColumn.Squad && squads.Count == 0) ? ImportColumn.Ignored : column);
        }

        // "Name" beside "First name" is the last name, and beside "Last name" the first.
        var whole = columns.IndexOf(ImportColumn.Name);
        var (hasFirst, hasLast) = (columns.Contains(ImportColumn.FirstName), columns.Contains(ImportColumn.LastName));
        if (whole >= 0 && (hasFirst || hasLast))
        {
            columns[whole] = hasFirst && hasLast ? ImportColumn.Ignored : hasFirst ? ImportColumn.LastName : ImportColumn.FirstName;
        }
        else if (whole >= 0)
        {
            columns[whole] = NameOf(Sample(table, heads.Number, whole));
        }

        return new Matching(heads.Number, Filled(columns, table), false, IsSure: true);
    }

    private static Matching ByCells(ImportTable table, IReadOnlyList<Squad> squads)
    {
        var columns = new ImportColumn[table.Columns];
        var samples = columns.Index().Select(each => Sample(table, 0, each.Index)).ToList();
        var rows = Math.Min(Looked, table.Rows.Count);
        var number = samples.FindIndex(cells => Share(cells, cell => NumberLike().IsMatch(cell)) >= Most
            && cells.Count >= Many * rows && cells.Distinct(StringComparer.OrdinalIgnoreCase).Count() >= Most * cells.Count);
        Set(number, ImportColumn.Number);
        Set(
            samples.FindIndex(cells => cells.Count > 0 && Share(cells, cell => SquadNames.Find(squads, cell) is not null) >= Half
                && samples.IndexOf(cells) != number),
            ImportColumn.Squad);
        var names = samples.Index().Where(each => columns[each.Index] == ImportColumn.Ignored && each.Item.Count >= Many * rows
            && Share(each.Item, cell => NameLike().IsMatch(cell)) >= Most).ToList();
        var whole = names.FindIndex(each => Share(each.Item, cell => cell.Contains(' ', StringComparison.Ordinal)) >= Many);
        if (whole >= 0 || names.Count == 1)
        {
            var (at, cells) = names[Math.Max(whole, 0)];
            columns[at] = NameOf(cells);
        }
        else if (names.Count > 1)
        {
            // A list of nothing but "Quince, Bartholomew" looks like two columns.
            var lastFirst = table.Columns == 2;
            columns[names[0].Index] = lastFirst ? ImportColumn.LastName : ImportColumn.FirstName;
            columns[names[1].Index] = lastFirst ? ImportColumn.FirstName : ImportColumn.LastName;
        }

        // Heads in words that are not known: a number column that begins without a figure.
        var first = table.Rows[0];
        var isHeads = number >= 0 && table.Rows.Count > 1 && first[number] is { Length: > 0 } head && !head.Any(char.IsAsciiDigit);
        return new Matching(isHeads ? first.Number : null, columns, false, IsSure: false);

        void Set(int at, ImportColumn column)
        {
            if (at >= 0)
            {
                columns[at] = column;
            }
        }
    }

    private static ImportColumn NameOf(List<string> cells) =>
        Share(cells, cell => PersonName.IsLastFirst(cell)) >= Many ? ImportColumn.LastFirst : ImportColumn.Name;

    private static List<string> Sample(ImportTable table, int after, int column) =>
        [.. table.Rows.Where(row => row.Number > after).Take(Looked).Select(row => row[column]).Where(cell => cell.Length > 0)];

    private static double Share(List<string> cells, Func<string, bool> isAlike) =>
        cells.Count == 0 ? 0 : (double)cells.Count(isAlike) / cells.Count;

    private static IReadOnlyList<ImportColumn> Filled(IEnumerable<ImportColumn> columns, ImportTable table) =>
        [.. columns.Concat(Enumerable.Repeat(ImportColumn.Ignored, table.Columns)).Take(table.Columns)];

    [GeneratedRegex(@"^[A-Za-z]{0,3}-?\d{1,9}$")]
    private static partial Regex NumberLike();

    [GeneratedRegex(@"^[^\d@]*\p{L}{2}[^\d@]*$")]
    private static partial Regex NameLike();
}
