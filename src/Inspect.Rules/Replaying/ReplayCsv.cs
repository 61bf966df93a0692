using System.Text;
using Inspect.Rules.Judging;

namespace Inspect.Rules.Replaying;

/// <summary>Writes a replay's changes as a table for a spreadsheet (RFC 4180): a row for each rule that comes out differently.</summary>
public static class ReplayCsv
{
    private static readonly string[] Header = ["inspection", "edition", "verdict then", "verdict now", "rule", "rule then", "rule now"];

    /// <summary>The whole table with its header; <see cref="CsvRow"/> describes how its cells are written.</summary>
    public static string Write(ReplayReport report)
    {
        var table = new StringBuilder(CsvRow.Of(Header));
        foreach (var change in report.Changes)
        {
            string?[] inspection = [change.Number, change.Edition, VerdictJson.WordOf(change.Old), VerdictJson.WordOf(change.New)];
            foreach (var rule in change.Rules.DefaultIfEmpty())
            {
                table.Append(CsvRow.Of([.. inspection, rule?.Rule, ReplayJson.WordOf(rule?.Old), ReplayJson.WordOf(rule?.New)]));
            }
        }

        return table.ToString();
    }
}
