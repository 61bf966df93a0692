using Inspect.Rules.Replaying;

namespace Inspect.Station.Desk;

/// <summary>The results as a table for spreadsheets: RFC 4180, in UTF-8, a header row, every line ended by CRLF.</summary>
internal static class FoundCsv
{
    /// <summary>The media type (RFC 7111 for the header).</summary>
    public const string MediaType = "text/csv; charset=utf-8; header=present";

    /// <summary>What is told of an inspection: the names are those of the JSON; several rules stand in one cell
    /// with a space between them.</summary>
    public static readonly (string Name, Func<FoundRow, string?> Text)[] Columns =
    [
        ("number", row => row.Number), ("at", row => row.At), ("event", row => row.Event),
        ("entry", row => row.Entry),
        ("bowler", row => row.Bowler), ("ball", row => row.Ball), ("serial", row => row.Serial),
        ("model", row => row.Model),
        ("play", row => row.Play), ("outcome", row => row.Outcome), ("standing", row => row.Standing),
        ("ruling", row => row.RulingWord), ("notMet", row => row.NotMet), ("open", row => row.Open),
        ("edition", row => row.Edition),
        ("by", row => row.By), ("supersedes", row => row.Supersedes), ("supersededBy", row => row.SupersededBy),
    ];

    /// <summary>The header row.</summary>
    public static string Header { get; } = CsvRow.Of([.. Columns.Select(column => column.Name)]);

    /// <summary>One inspection.</summary>
    public static string Row(FoundRow row) => CsvRow.Of([.. Columns.Select(column => column.Text(row))]);
}
