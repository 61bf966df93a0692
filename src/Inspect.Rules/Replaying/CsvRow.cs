using System.Buffers;
using System.Text;

namespace Inspect.Rules.Replaying;

/// <summary>A row of a table for spreadsheets (RFC 4180), ended by CRLF.</summary>
/// <remarks>
/// A cell that a spreadsheet would read as a formula gets an apostrophe before it, which tells the spreadsheet that it is text. Such a cell
/// begins with = + - @, a full-width form of these, a tab or a line end (OWASP, CSV Injection). A cell that begins with an apostrophe gets
/// one more, so that a program which takes one apostrophe off the beginning has every cell as it was typed.
/// </remarks>
public static class CsvRow
{
    private static readonly SearchValues<char> Quoted = SearchValues.Create(",\"\r\n");

    private static readonly SearchValues<char> Guarded = SearchValues.Create("=+-@\t\r\n'＝＋－＠");

    /// <summary>The row of these cells; null is an empty one.</summary>
    public static string Of(params ReadOnlySpan<string?> cells)
    {
        var line = new StringBuilder(200);
        for (var i = 0; i < cells.Length; i++)
        {
            line.Append(i == 0 ? "" : ",").Append(Cell(cells[i] ?? ""));
        }

        return line.Append("\r\n").ToString();
    }

    private static string Cell(string text)
    {
        var safe = text.Length > 0 && Guarded.Contains(text[0]) ? "'" + text : text;
        return safe.AsSpan().ContainsAny(Quoted) ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }
}
