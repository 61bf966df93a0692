using System.Text;
using System.Text.Json.Nodes;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>A sound ruleset broken on purpose in one place, and what the loader must say of it.</summary>
internal sealed record BrokenRuleset(string Name, string Text, string Path, string Words, bool? SeenBySchema, bool Latin)
{
    /// <summary>The ruleset that nothing is wrong with.</summary>
    public static readonly string Sound = File.ReadAllText(FileOf("sound.json"));

    /// <summary>Every broken ruleset.</summary>
    public static readonly IReadOnlyList<BrokenRuleset> All = JsonNode.Parse(File.ReadAllText(FileOf("broken.json")))!.AsArray()
        .Select(one => From(one!.AsObject())).ToList();

    /// <summary>What the loader says of this one.</summary>
    public IReadOnlyList<Fault> Faults => FaultsOf((Latin ? Encoding.Latin1 : Encoding.UTF8).GetBytes(Text));

    /// <summary>What the loader says of a file.</summary>
    public static IReadOnlyList<Fault> FaultsOf(byte[] file)
    {
        var faults = new List<Fault>();
        var edition = RulesetLoader.Load(file, faults);
        Assert.Equal(edition is null, faults.Count > 0);
        return faults;
    }

    private static BrokenRuleset From(JsonObject one) => new(
        (string)one["name"]!,
        one["change"] is JsonObject change ? SheetChange.Apply(JsonNode.Parse(Sound)!.AsObject(), change).ToJsonString()
            : Replaced(one["replace"]!.AsArray()),
        (string)one["path"]!,
        (string)one["words"]!,
        (bool?)one["schema"],
        (bool?)one["latin"] ?? false);

    private static string Replaced(JsonArray replace) =>
        (string?)replace[1] is { } to ? Sound.Replace((string)replace[0]!, to, StringComparison.Ordinal) : $"[{Sound}]";

    private static string FileOf(string name) =>
        System.IO.Path.Combine(Book.Folder, "..", "tests", "Inspect.Rules.Tests", "Rulesets", "BrokenRulesets", name);
}
