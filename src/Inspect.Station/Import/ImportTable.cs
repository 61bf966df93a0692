using System.Buffers;

namespace Inspect.Station.Import;

/// <summary>The rows of a file or of a pasted list, before anyone knows what its columns are.</summary>
/// <param name="Rows">Every row that is not empty, in order.</param>
/// <param name="Separator">What stands between the cells of a text; null in a workbook.</param>
/// <param name="Hidden">The numbers of the rows that the workbook hides.</param>
/// <param name="Sheets">The names of the workbook's sheets; none in a text.</param>
/// <param name="Sheet">Which of them was read, from 0.</param>
/// <param name="Notices">What a person should know of how it was read, a sentence each.</param>
public sealed record ImportTable(
    IReadOnlyList<TableRow> Rows,
    char? Separator,
    IReadOnlyList<int> Hidden,
    IReadOnlyList<string> Sheets,
    int Sheet,
    IReadOnlyList<string> Notices)
{
    /// <summary>The most rows that are read, empty ones included.</summary>
    public const int MostRows = 100_000;

    /// <summary>The most columns that are read; what stands further right is left.</summary>
    public const int MostColumns = 60;

    /// <summary>How many columns there are.</summary>
    public int Columns { get; } = Rows.Count == 0 ? 0 : Rows.Max(row => row.Cells.Count);

    /// <summary>The fault of a file that is too long.</summary>
    public static string TooLong(string name) =>
        FormattableString.Invariant($"{name} has more than {MostRows:N0} rows; split it, and choose one part after the other.");
}

/// <summary>One row as it was read.</summary>
/// <param name="Number">Its number as a spreadsheet shows it, from 1.</param>
/// <param name="Cells">Its cells up to the last that is not empty. A cell may have line breaks in it.</param>
public sealed record TableRow(int Number, IReadOnlyList<string> Cells)
{
    /// <summary>A cell as one line, without blanks around it; empty where the row is shorter.</summary>
    public string this[int column] => column >= 0 && column < Cells.Count ? OneLine(Cells[column]) : "";

    /// <summary>The row of what was read; null when every cell is empty.</summary>
    public static TableRow? Of(int number, List<string> cells)
    {
        var last = cells.FindLastIndex(cell => !string.IsNullOrWhiteSpace(cell));
        return last < 0 ? null : new TableRow(number, [.. cells.Take(last + 1)]);
    }

    private static readonly SearchValues<char> NotPlain = SearchValues.Create("\r\n\t\u00A0\u200B\uFEFF");

    // Spreadsheets and web pages leave line breaks, blanks that do not break a line, and characters without a width.
    private static string OneLine(string cell) => cell.AsSpan().Trim() is var bare && bare.IndexOfAny(NotPlain) < 0
        && bare.IndexOf("  ") < 0
            ? bare.Length == cell.Length ? cell : bare.ToString()
            : string.Join(' ', cell.Replace("\u200B", "", StringComparison.Ordinal).Replace("\uFEFF", "", StringComparison.Ordinal)
                .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
