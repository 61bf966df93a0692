using System.Text;
using System.Text.Json.Nodes;
using Inspect.Rules.Rulesets;
using Inspect.Rules.Tests.Rulesets;
using Inspect.Sheets.Json;
using Json.Schema;

namespace Inspect.Rules.Tests.Supplements;

/// <summary>A supplement is read as strictly as an edition, and editors have a schema for it.</summary>
public class SupplementLoaderTests
{
    [Theory]
    [InlineData("{ \"supplement\": null }", "supplement", "must be given", true)]
    [InlineData("{ \"version\": \"2026-13-01\" }", "version", "is not a day", true)]
    [InlineData("{ \"supplement\": \"Lantern Open\" }", "supplement", "is not written like", true)]
    [InlineData("{ \"edition\": \"2026-11-01\" }", "edition", "is not a member known here", true)]
    [InlineData("{ \"houseBall\": { \"houseBall\": true } }", "houseBall", "cannot be defined by houseBall itself", false)]
    [InlineData("{ \"rules\": null, \"decides\": null }", "rules", "has no rules and decides nothing", true)]
    [InlineData("{ \"rules[0].counts\": \"bags\" }", "rules[0].counts", "write holes, palmMarks or balls", true)]
    [InlineData("{ \"rules[1].rule\": \"ball-count\", \"rules[1].check\": null }", "rules[1].rule", "is written twice", false)]
    [InlineData("{ \"decides[0].discretion\": \"permit\" }", "decides[0].discretion", "write allow or bar", true)]
    [InlineData("{ \"decides[0].source\": \"hearsay\" }", "decides[0].source", "is not among the sources", false)]
    [InlineData("{ \"decides[1]\": { \"rule\": \"approved-list\", \"discretion\": \"allow\", "
        + "\"source\": \"rules\" } }", "decides[1].rule", "is decided twice", false)]
    [InlineData("{ \"decides[0].basis2\": \"x\" }", "decides[0].basis2", "is not a member known here", true)]
    public void Load_BrokenSupplement_SaysWhatAndWhere(string change, string path, string words, bool seenBySchema)
    {
        var text = SheetChange.Apply(JsonNode.Parse(Lantern.Text)!.AsObject(), JsonNode.Parse(change)!.AsObject()).ToJsonString();
        var faults = new List<Fault>();

        Assert.Null(SupplementLoader.Load(Encoding.UTF8.GetBytes(text), faults));
        Assert.Contains(faults, fault => fault.Path == path && fault.Message.Contains(words, StringComparison.Ordinal));
        Assert.Equal(seenBySchema, !SupplementSchema.IsValid(text));
    }

    [Fact]
    public void Load_SoundSupplement_KnowsItselfByTheHashOfItsBytes()
    {
        Assert.Equal(("lantern-open", new DateOnly(2026, 11, 1), "us-national"), (
            Lantern.Supplement.Id, Lantern.Supplement.Version, Lantern.Supplement.Authority));
        Assert.Equal(64, Lantern.Supplement.Sha256.Length);
        Assert.NotEqual(Lantern.Supplement.Sha256, Lantern.Load(Lantern.Text + "\n").Sha256);
        Assert.True(SupplementSchema.IsValid(Lantern.Text));
    }
}

/// <summary>The schema of supplements with the one of editions, which it refers to, put inside it.</summary>
/// <remarks>JsonSchema.Net 8.0.5 follows a reference to another file to that file's root and drops the place within it.</remarks>
internal static class SupplementSchema
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(Bundled());

    public static bool IsValid(string text)
    {
        using var document = System.Text.Json.JsonDocument.Parse(text);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    private static string Bundled()
    {
        var edition = TextOf("ruleset.schema.json").Replace("\"#/", "\"#/$defs/edition/", StringComparison.Ordinal);
        var supplement = TextOf("supplement.schema.json")
            .Replace("\"ruleset.schema.json#/", "\"#/$defs/edition/", StringComparison.Ordinal);
        var bundle = JsonNode.Parse(supplement)!.AsObject();
        bundle["$defs"] = new JsonObject { ["edition"] = JsonNode.Parse(edition) };
        return bundle.ToJsonString();
    }

    private static string TextOf(string name) => File.ReadAllText(Path.Combine(Book.Folder, name));
}
