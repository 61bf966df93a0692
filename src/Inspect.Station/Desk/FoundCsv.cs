using Inspect.Rules.Replaying;

namespace Inspect.Station.Desk;

/// <summary>The results as a table for spreadsheets: RFC 4180, in UTF-8, a header row, every line ended by CRLF.</summary>
internal static class FoundCsv
{
    /// <summary>The media type (RFC 7111 for the header).</summary>
    public const string MediaType = "text/csv; charset=utf-8; header=present";

    /// <summary>The columns, also used for JSON: name, text, and whether the text is a list separated by spaces.</summary>
    public static readonly (string Name, Func<FoundRow, string?> Text, bool IsList)[] Columns =
    [
        ("number", row => row.Number, false), ("at", row => row.At, false), ("event", row => row.Event, false),
        ("entry", row => row.Entry, false),
        ("bowler", row => row.Bowler, false), ("ball", row => row.Ball, false), ("serial", row => row.Serial, false),
        ("model", row => row.Model, false),
        ("play", row => row.Play, false), ("outcome", row => row.Outcome, false), ("standing", row => row.Standing, false),
        ("ruling", row => row.RulingWord, false), ("notMet", row => row.NotMet, true), ("open", row => row.Open, true),
        ("edition", row => row.Edition, false),
        ("by", row => row.By, false), ("supersedes", row => row.Supersedes, false), ("supersededBy", row => row.SupersededBy, false),
    ];

    /// <summary>The header row.</summary>
    public static string Header { get; } = CsvRow.Of([.. Columns.Select(column => column.Name)]);

    /// <summary>One inspection.</summary>
    public static string Row(FoundRow row) => CsvRow.Of([.. Columns.Select(column => column.Text(row))]);
}
