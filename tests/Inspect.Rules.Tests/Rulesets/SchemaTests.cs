using System.Text.Json;
using Json.Schema;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>The schema that editors use accepts every edition and refuses what a schema can see; the
/// loader is the stricter of the two.</summary>
public class SchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromFile(Path.Combine(Book.Folder, "ruleset.schema.json"));

    public static TheoryData<string> Judged => [.. BrokenRuleset.All.Where(one => one.SeenBySchema is not null).Select(one => one.Name)];

    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Evaluate_PublishedEdition_IsValid(string edition) =>
        Assert.True(IsValid(File.ReadAllText(Book.FileOf(edition, "ruleset.json"))));

    [Fact]
    public void Evaluate_TheSoundRuleset_IsValid() => Assert.True(IsValid(BrokenRuleset.Sound));

    [Theory]
    [MemberData(nameof(Judged))]
    public void Evaluate_BrokenRuleset_IsRefusedWhereASchemaCanSeeIt(string name)
    {
        var broken = BrokenRuleset.All.Single(one => one.Name == name);

        Assert.Equal(broken.SeenBySchema, !IsValid(broken.Text));
    }

    [Fact]
    public void Schema_ItsWordLists_AreThoseOfTheLoader()
    {
        var text = File.ReadAllText(Path.Combine(Book.Folder, "ruleset.schema.json"));
        using var schema = JsonDocument.Parse(text);
        var facts = schema.RootElement.GetProperty("$defs")
            .GetProperty("fact").GetProperty("enum").EnumerateArray().Select(fact => fact.GetString());

        Assert.Equal(Inspect.Rules.Rulesets.FactList.Names.Keys.Order(StringComparer.Ordinal), facts.Order(StringComparer.Ordinal));
    }

    private static bool IsValid(string text)
    {
        using var document = JsonDocument.Parse(text);
        return Schema.Evaluate(document.RootElement).IsValid;
    }
}
