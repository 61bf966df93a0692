using Inspect.Rules.Replaying;

namespace Inspect.Station.Desk;

/// <summary>What was found as a table for spreadsheets: RFC 4180, in UTF-8, a header row, every line ended by CRLF.</summary>
public static class FoundCsv
{
    /// <summary>The media type (RFC 7111 for the header).</summary>
    public const string MediaType = "text/csv; charset=utf-8; header=present";

    /// <summary>The header row: the members of the same inspections as JSON.</summary>
    public static string Header { get; } = CsvRow.Of(
        "number", "at", "event", "entry", "bowler", "ball", "serial", "model", "play", "outcome", "standing", "ruling", "notMet", "open", "edition", "by", "supersedes",
        "supersededBy");

    /// <summary>One inspection; several rules stand in one cell with a space between them.</summary>
    public static string Row(FoundRow row) => CsvRow.Of(
        row.Number, row.At, row.Event, row.Entry, row.Bowler, row.Ball, row.Serial, row.Model, row.Play, row.Outcome, row.Standing, row.RulingWord, row.NotMet, row.Open, row.Edition,
        row.By, row.Supersedes, row.SupersededBy);
}
