using System.Text;
using System.Text.RegularExpressions;
using Sylvan.Data.Csv;

namespace Inspect.Station.Import;

/// <summary>Reads a text with cells that are separated by commas, semicolons or tabs (RFC 4180 and its habits).</summary>
internal static partial class TextRows
{
    /// <summary>How many rows show what separates the cells.</summary>
    private const int Looked = 60;

    // One cell of a list has a few lines at most. A cell with more begins with quotes that nobody closed.
    private const int MostLinesOfACell = 8;

    private static readonly char[] Separators = ['\t', ';', ','];
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The rows, or null and why they cannot be read.</summary>
    public static ImportTable? Read(ImportFile file, out string? fault)
    {
        var notices = new List<string>();
        if (Text(file, notices) is not { } text)
        {
            fault = $"{file.Name} is neither a text nor a workbook; save it as CSV in UTF-8, or as XLSX.";
            return null;
        }

        var first = 1;
        var separator = Told().Match(text) is { Success: true } told ? told.Groups[1].Value[0] : (char?)null;
        if (separator is not null)
        {
            text = text[(text.IndexOf('\n', StringComparison.Ordinal) + 1)..];
            first = 2;
        }

        var rows = new List<TableRow>();
        var broken = new List<int>();
        try
        {
            separator ??= SeparatorOf(text);
            if (separator != '\t' && Spaced().IsMatch(text))
            {
                text = Spaced().Replace(text, "");
            }

            foreach (var row in RowsOf(text, separator.Value, first))
            {
                var lines = row.Cells.Max(cell => cell.AsSpan().Count('\n'));
                if (lines > MostLinesOfACell)
                {
                    fault = NeverClosed(file, row);
                    return null;
                }

                if (lines > 0)
                {
                    broken.Add(row.Number);
                }

                if (row.Number > ImportTable.MostRows)
                {
                    fault = ImportTable.TooLong(file.Name);
                    return null;
                }

                rows.Add(row);
            }
        }
        catch (CsvRecordTooLargeException)
        {
            fault = $"{file.Name} has a row of more than a million characters after row {(rows.Count == 0 ? 0 : rows[^1].Number)}; "
                + "close its quotes, and choose the file again.";
            return null;
        }

        if (broken.Count > 0)
        {
            notices.Add($"A cell runs over more than one line in {RowWords.Rows(broken)}; it is read as one line.");
        }

        fault = null;
        return new ImportTable(rows, separator, [], [], 0, notices);
    }

    private static string NeverClosed(ImportFile file, TableRow row)
    {
        var cell = row.Cells.First(cell => cell.AsSpan().Count('\n') > MostLinesOfACell);
        return $"The quotes before \"{RowWords.Short(cell.Split('\n')[0].Trim())}\" in row {row.Number} of {file.Name} are never closed; "
            + "close them or take them out.";
    }

    // UTF-8 or what a byte order mark says; a text that is neither is from an older program.
    private static string? Text(ImportFile file, List<string> notices)
    {
        string text;
        try
        {
            using var reader = new StreamReader(new MemoryStream(file.Bytes), Strict);
            text = reader.ReadToEnd();
        }
        catch (DecoderFallbackException)
        {
            text = CodePagesEncodingProvider.Instance.GetEncoding(1252)!.GetString(file.Bytes);
            notices.Add($"{file.Name} is not in UTF-8 and was read as Windows-1252{Example(text)}.");
        }

        return text.Contains('\0', StringComparison.Ordinal) ? null : text;
    }

    private static string Example(string text)
    {
        var at = text.AsSpan().IndexOfAnyExceptInRange('\0', '\u007F');
        if (at < 0)
        {
            return "";
        }

        var from = text.LastIndexOfAny([.. Separators, '\n', '"'], at) + 1;
        var to = text.IndexOfAny([.. Separators, '\r', '\n', '"'], at);
        return $": look at the accents, as in \"{RowWords.Short(text[from..(to < 0 ? text.Length : to)].Trim())}\"";
    }

    // The separator that cuts the most of the first rows into the same number of cells, and then into the most cells. Rows of one cell have
    // none, and a comma may follow further down.
    private static char SeparatorOf(string text) => Separators
        .Select(separator => (separator, cut: Cut(text, separator)))
        .Where(each => each.cut.Rows > 0)
        .Append((separator: ',', cut: (Rows: 0, Cells: 0)))
        .MaxBy(each => each.cut).separator;

    private static (int Rows, int Cells) Cut(string text, char separator) => RowsOf(text, separator, 1).Take(Looked)
        .Where(row => row.Cells.Count > 1)
        .GroupBy(row => row.Cells.Count)
        .Select(alike => (Rows: alike.Count(), Cells: alike.Key))
        .DefaultIfEmpty()
        .Max();

    private static IEnumerable<TableRow> RowsOf(string text, char separator, int first)
    {
        using var reader = CsvDataReader.Create(new StringReader(text), new CsvDataReaderOptions
        {
            HasHeaders = false,
            Delimiter = separator,
            // Quotes inside a name are letters; quotes that are not closed are found by their length.
            CsvStyle = CsvStyle.Lax,
            // No row is a remark: "#" is a head. A text with this character is refused before.
            Comment = '\0',
            ResultSetMode = ResultSetMode.SingleResult,
            MaxBufferSize = 1 << 20,
        });
        var cells = new List<string>();
        while (reader.Read())
        {
            cells.Clear();
            for (var i = 0; i < Math.Min(reader.RowFieldCount, ImportTable.MostColumns); i++)
            {
                cells.Add(reader.GetString(i));
            }

            if (TableRow.Of(reader.RowNumber + first - 1, cells) is { } row)
            {
                yield return row;
            }
        }
    }

    // A first line "sep=;" by which spreadsheets tell each other.
    [GeneratedRegex(@"\A""?sep=([,;\t])""?\r?\n", RegexOptions.IgnoreCase)]
    private static partial Regex Told();

    // Blanks between a separator and the quotes of the next cell, as people type them.
    [GeneratedRegex(@"(?<=[,;]) +(?="")")]
    private static partial Regex Spaced();
}
