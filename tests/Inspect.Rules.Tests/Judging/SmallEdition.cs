using System.Text;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Tests.Judging;

/// <summary>Small editions and sheets written out in a test; their rules are invented.</summary>
internal static class SmallEdition
{
    /// <summary>An edition of these rules; each may leave out source, pass and fail.</summary>
    public static Edition Of(string rules, string more = "") => Load($$"""
        {"authority":"here","edition":"2020-01-01","title":"Invented","sources":{"s":{"title":"Invented","basis":"official"} },
        {{more}}"rules":[{{rules.Replace("\"rule\":", "\"source\":\"s\",\"pass\":\"{subject} {measured} {limit}\",\"fail\":\"{subject} {measured} {limit}\",\"rule\":", StringComparison.Ordinal)}}]}
        """);

    /// <summary>The verdict of these rules on a sheet with these members.</summary>
    public static Verdict Judged(string rules, string members = "", string more = "") => Judge.Under(Of(rules, more), Sheet(members));

    public static Sheet Sheet(string members)
    {
        var faults = new List<Fault>();
        var sheet = SheetReader.Read(
            Encoding.UTF8.GetBytes($$"""{"play":"2027-03-14","authority":"here"{{(members.Length > 0 ? "," : "")}}{{members}}}"""), faults);
        Assert.Empty(faults);
        return sheet!;
    }

    private static Edition Load(string json)
    {
        var faults = new List<Fault>();
        var edition = RulesetLoader.Load(Encoding.UTF8.GetBytes(json), faults);
        Assert.Empty(faults);
        return edition!;
    }
}
