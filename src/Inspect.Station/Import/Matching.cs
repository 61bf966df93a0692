using System.Security.Cryptography;
using System.Text;
using Inspect.Station.Access;
using Inspect.Station.Web;

namespace Inspect.Station.Import;

/// <summary>What each column of a table is taken for.</summary>
/// <param name="HeadsRow">The number of the row with the heads; null where there is none.</param>
/// <param name="Columns">What each column is, from the left.</param>
/// <param name="LeavesHidden">Whether rows that the workbook hides are left out.</param>
/// <param name="IsSure">Whether heads that are known, or a person, say so; else it was guessed from the cells.</param>
public sealed record Matching(int? HeadsRow, IReadOnlyList<ImportColumn> Columns, bool LeavesHidden, bool IsSure)
{
    /// <summary>The form field of a column, which is also the place of its faults.</summary>
    public static string Field(int column) => $"column.{column}";

    /// <summary>The rows with entries: all below the heads.</summary>
    public IEnumerable<TableRow> Entries(ImportTable table)
    {
        var hidden = LeavesHidden ? table.Hidden.ToHashSet() : [];
        return table.Rows.Where(row => row.Number > (HeadsRow ?? 0) && !hidden.Contains(row.Number));
    }

    /// <summary>The heads by which this is remembered; null where there are none.</summary>
    public byte[]? HeadsOf(ImportTable table) =>
        table.Rows.FirstOrDefault(row => row.Number == HeadsRow) is { } heads ? HashOf(heads) : null;

    /// <summary>SHA-256 of the heads of a row, accents and case aside.</summary>
    public static byte[] HashOf(TableRow heads) => SHA256.HashData(Encoding.UTF8.GetBytes(
        string.Join('\u001F', heads.Cells.Select(head => string.Join(' ', NameFold.Words(head))))));

    /// <summary>Adds a fault for a column that is there twice, or a name that is not there.</summary>
    public void Check(Faults faults)
    {
        foreach (var twice in Columns.Index().Where(each => each.Item != ImportColumn.Ignored).GroupBy(each => each.Item)
            .Where(alike => alike.Count() > 1))
        {
            var label = ImportColumns.All.First(each => each.Column == twice.Key).Label;
            faults.Add(Field(twice.Last().Index), $"\"{label}\" is chosen for the columns "
                + $"{string.Join(" and ", twice.Select(each => Letter(each.Index)))}; choose it for one of them.");
        }

        if (!Columns.Any(column => column.IsOfName()))
        {
            faults.Add(Field(0), "No column is chosen for the names; choose the one that has them.");
        }
        else if (Columns.Any(column => column is ImportColumn.Name or ImportColumn.LastFirst)
            && (Columns.Any(column => column is ImportColumn.FirstName or ImportColumn.LastName)
                || (Columns.Contains(ImportColumn.Name) && Columns.Contains(ImportColumn.LastFirst))))
        {
            var at = Columns.Index().Last(each => each.Item.IsOfName()).Index;
            faults.Add(Field(at), $"The whole name is chosen and column {Letter(at)} is chosen for a name too; "
                + "choose the whole name, or first and last name.");
        }
    }

    /// <summary>The letter of a column as spreadsheets show it.</summary>
    public static string Letter(int column) =>
        (column < 26 ? "" : $"{(char)('A' + column / 26 - 1)}") + (char)('A' + column % 26);
}
