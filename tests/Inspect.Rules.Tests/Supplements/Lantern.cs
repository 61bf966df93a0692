using System.Text;
using System.Text.Json.Nodes;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Rules.Tests.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Tests.Supplements;

/// <summary>An invented event with rules of its own on top of the national edition of 2020-08-01.</summary>
internal static class Lantern
{
    public static readonly string Text = File.ReadAllText(
        Path.Combine(Book.Folder, "..", "tests", "Inspect.Rules.Tests", "Supplements", "lantern-open.json"));

    public static readonly Supplement Supplement = Load(Text);

    public static readonly Edition Edition = Book.Find("us-national/2020-08-01");

    public static readonly JudgingTerms Terms = new() { Supplements = [Supplement] };

    /// <summary>The verdict under the event's rules on the edition's own legal sheet with these changes.</summary>
    public static Verdict Judged(string changes, JudgingTerms? terms = null) => Judge.Under(Edition, Sheet(changes), terms ?? Terms);

    /// <summary>A legal sheet that answers every question of the supplement, with these changes.</summary>
    public static Sheet Sheet(string changes = "{}")
    {
        var legal = JsonNode.Parse(File.ReadAllText(Book.FileOf("us-national/2020-08-01", "cases.json")))!["sheet"]!.AsObject();
        var full = SheetChange.Apply(legal, JsonNode.Parse("""
            { "ball.maker": "Nordlicht", "ball.model": "Polar", "ball.serial": "5K2M0419", "ball.made": "2024-05", "ball.listed": "yes",
              "ball.oilAbsorption": "60 min", "ball.highPerformanceCore": true, "hardness": { "readings": ["75", "75", "75"], "temperature": "72 F" },
              "circumstances": { "ballNumber": 1, "playBegan": false, "frozen": false } }
            """)!.AsObject());
        var faults = new List<Fault>();
        var sheet = SheetReader.Read(
            Encoding.UTF8.GetBytes(SheetChange.Apply(full, JsonNode.Parse(changes)!.AsObject()).ToJsonString()), faults);
        Assert.Empty(faults);
        return sheet!;
    }

    public static Supplement Load(string text)
    {
        var faults = new List<Fault>();
        var supplement = SupplementLoader.Load(Encoding.UTF8.GetBytes(text), faults);
        Assert.Empty(faults);
        return supplement!;
    }

    /// <summary>A supplement of these rules and further members; each rule may leave out source, pass and fail.</summary>
    public static Supplement Of(string rules, string more = "") => Load($$"""
        {"supplement":"small","version":"2026-11-01","title":"Small rules","authority":"us-national",
        "sources":{"s":{"title":"Small rules","basis":"official"},"m":{"title":"Recalled","basis":"memory"} }
        {{(rules.Length > 0 ? $",\"rules\":[{Full(rules)}]" : "")}} {{more}} }
        """);

    private static string Full(string rules) =>
        rules.Replace("\"rule\":", "\"source\":\"s\",\"pass\":\"{measured} {limit}\",\"fail\":\"{measured} "
            + "{limit}\",\"rule\":", StringComparison.Ordinal);
}
