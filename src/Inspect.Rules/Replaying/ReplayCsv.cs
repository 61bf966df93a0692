using System.Text;
using Inspect.Rules.Judging;

namespace Inspect.Rules.Replaying;

/// <summary>Writes a replay's changes as a table for a spreadsheet (RFC 4180): a row for each rule that comes out differently.</summary>
public static class ReplayCsv
{
    private const string LineEnd = "\r\n";

    private static readonly string[] Header = ["inspection", "edition", "verdict then", "verdict now", "rule", "rule then", "rule now"];

    public static string Write(ReplayReport report)
    {
        var table = new StringBuilder();
        Row(table, Header);
        foreach (var change in report.Changes)
        {
            string[] inspection = [change.Number, change.Edition ?? "", VerdictJson.WordOf(change.Old), VerdictJson.WordOf(change.New)];
            foreach (var rule in change.Rules.DefaultIfEmpty())
            {
                Row(table, [.. inspection, rule?.Rule ?? "", ReplayJson.WordOf(rule?.Old), ReplayJson.WordOf(rule?.New)]);
            }
        }

        return table.ToString();
    }

    private static void Row(StringBuilder table, IEnumerable<string> fields) => table.AppendJoin(',', fields.Select(Field)).Append(LineEnd);

    private static string Field(string text) =>
        text.AsSpan().IndexOfAny(",\"\r\n") < 0 ? text : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
