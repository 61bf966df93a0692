using System.Text.Json.Nodes;
using Inspect.Rules.Judging;

namespace Inspect.Rules.Replaying;

/// <summary>Writes a replay's report as JSON.</summary>
public static class ReplayJson
{
    /// <summary>The report as JSON: counts, and each inspection whose verdict or findings would change.</summary>
    public static JsonObject Write(ReplayReport report)
    {
        var written = new JsonObject
        {
            ["judged"] = report.Judged,
            ["verdictsChanged"] = report.VerdictsChanged,
            ["outcomes"] = new JsonArray([.. report.ByOutcome.Select(one => Counted(new JsonObject(), one.Old, one.New, one.Count))]),
            ["rules"] = new JsonArray([.. report.ByRule.Select(one => Counted(
                new JsonObject { ["rule"] = one.Change.Rule }, one.Change.Old, one.Change.New, one.Count))]),
            ["changes"] = new JsonArray([.. report.Changes.Select(Write)]),
            ["notJudged"] = new JsonArray([.. report.NotJudged.Select(one =>
                new JsonObject { ["inspection"] = one.Number, ["reason"] = one.Reason })]),
        };
        if (report.SameBytes is { } same)
        {
            written["sameBytes"] = same;
        }

        return written;
    }

    /// <summary>The word for how a rule comes out; null when it has no finding.</summary>
    internal static string WordOf(Outcome? outcome) => outcome is { } known ? VerdictJson.WordOf(known) : "none";

    private static JsonObject Write(ReplayChange change)
    {
        var written = new JsonObject { ["inspection"] = change.Number };
        if (change.Edition is { } edition)
        {
            written["edition"] = edition;
        }

        written["then"] = VerdictJson.WordOf(change.Old);
        written["now"] = VerdictJson.WordOf(change.New);
        written["rules"] = new JsonArray([.. change.Rules.Select(rule =>
            new JsonObject { ["rule"] = rule.Rule, ["then"] = WordOf(rule.Old), ["now"] = WordOf(rule.New) })]);
        return written;
    }

    private static JsonObject Counted(JsonObject written, Outcome? old, Outcome? now, int count)
    {
        written["then"] = WordOf(old);
        written["now"] = WordOf(now);
        written["count"] = count;
        return written;
    }
}
