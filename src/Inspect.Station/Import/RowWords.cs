using System.Globalization;

namespace Inspect.Station.Import;

/// <summary>How rows and what stands in them are named in sentences.</summary>
internal static class RowWords
{
    private const int Named = 8;
    private const int Longest = 40;

    /// <summary><c>row 3</c>, or <c>rows 3, 7, 9 (12 more)</c>.</summary>
    public static string Rows(IReadOnlyCollection<int> rows) =>
        $"{(rows.Count == 1 ? "row" : "rows")} {string.Join(", ", rows.Take(Named))}{More(rows.Count)}";

    /// <summary><c>"7/8" in row 3, "x y" in row 9 (12 more)</c>.</summary>
    public static string Values(IReadOnlyCollection<(int Row, string Value)> rows) =>
        string.Join(", ", rows.Take(Named).Select(each => $"\"{Short(each.Value)}\" in row {each.Row}")) + More(rows.Count);

    /// <summary>A cell that fits into a sentence.</summary>
    public static string Short(string cell) => cell.Length <= Longest ? cell : $"{cell[..(Longest - 1)]}…";

    /// <summary><c>1 entry</c>, <c>1,204 entries</c>.</summary>
    public static string Count(int count, string one, string many) =>
        count == 1 ? $"1 {one}" : string.Create(CultureInfo.InvariantCulture, $"{count:N0} {many}");

    private static string More(int count) =>
        count <= Named ? "" : string.Create(CultureInfo.InvariantCulture, $" ({count - Named:N0} more)");
}
