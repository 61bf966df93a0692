using System.Buffers;
using System.Text;

namespace Inspect.Station.Desk;

/// <summary>What was found as a table for spreadsheets: RFC 4180, in UTF-8, a header row, every line ended by CRLF.</summary>
/// <remarks>
/// A cell that a spreadsheet would take for a formula gets an apostrophe before it, which spreadsheets read as "this is text": it begins with
/// = + - @, a full-width form of these, a tab or a line end (OWASP, CSV Injection). A cell that begins with an apostrophe gets one more, so
/// that a program which takes one apostrophe off the beginning has every cell as it was typed.
/// </remarks>
public static class FoundCsv
{
    /// <summary>The media type (RFC 7111 for the header).</summary>
    public const string MediaType = "text/csv; charset=utf-8; header=present";

    private const string LineEnd = "\r\n";

    private static readonly SearchValues<char> Quoted = SearchValues.Create(",\"\r\n");

    private static readonly SearchValues<char> Guarded = SearchValues.Create("=+-@\t\r\n'＝＋－＠");

    /// <summary>The header row: the members of the same inspections as JSON.</summary>
    public static string Header { get; } = Row(
        "number", "at", "event", "entry", "bowler", "ball", "serial", "play", "outcome", "standing", "ruling", "notMet", "open", "edition", "by", "supersedes",
        "supersededBy");

    /// <summary>One inspection; several rules stand in one cell with a space between them.</summary>
    public static string Row(FoundRow row) => Row(
        row.Number, row.At, row.Event, row.Entry, row.Bowler, row.Ball, row.Serial, row.Play, row.Outcome, row.Standing, row.RulingWord, row.NotMet, row.Open, row.Edition,
        row.By, row.Supersedes, row.SupersededBy);

    private static string Row(params ReadOnlySpan<string?> cells)
    {
        var line = new StringBuilder(200);
        for (var i = 0; i < cells.Length; i++)
        {
            line.Append(i == 0 ? "" : ",").Append(Cell(cells[i] ?? ""));
        }

        return line.Append(LineEnd).ToString();
    }

    private static string Cell(string text)
    {
        var safe = text.Length > 0 && Guarded.Contains(text[0]) ? "'" + text : text;
        return safe.AsSpan().ContainsAny(Quoted) ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }
}
