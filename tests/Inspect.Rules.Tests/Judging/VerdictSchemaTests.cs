using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Json.Schema;

namespace Inspect.Rules.Tests.Judging;

/// <summary>The schema of a verdict describes what is written, and nothing that is not.</summary>
public class VerdictSchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(VerdictSchema.Text);

    // Not a verdict that could be reached: it has every member at once.
    private const string Whole = """
        {
          "outcome": "hold", "cause": "no-edition",
          "edition": { "id": "us-national/2020-08-01", "sha256": "00" },
          "supplements": [{ "id": "lantern-open", "version": "2026-11-02", "sha256": "00" }],
          "decision": "guarded-acceptance", "guardFactor": "2",
          "findings": [{
            "rule": "left-right", "subject": "ball", "path": "weights.leftRight", "outcome": "hold", "cause": "near-limit", "measured": "3 oz",
            "limit": "at most 3 oz", "margin": "0 oz", "conformance": "0.500", "reason": "One sentence.",
            "reference": { "title": "A manual", "section": "2", "basis": "official" }, "supplement": "lantern-open",
            "confirmed": { "by": "0123456789abcdef", "on": "2026-11-02", "document": "A letter" }
          }],
          "notChecked": ["hardness"],
          "notes": [{ "id": "soft", "text": "Soft." }]
        }
        """;

    [Fact]
    public void Evaluate_VerdictWithEveryMember_IsValidAndHasEveryMemberOfTheSchema()
    {
        var written = VerdictJson.Write(VerdictReader.Read(JsonElement.Parse(Whole), VerdictJson.WordsOnly));

        Assert.True(IsValid(written));
        Assert.Equal(
            Described(JsonNode.Parse(VerdictSchema.Text)!).Order(StringComparer.Ordinal), Members(written).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Evaluate_VerdictWithoutEdition_IsValid() => Assert.True(IsValid(VerdictJson.Write(Judge.WithoutEdition())));

    [Theory]
    [InlineData("outcome", "open")]
    [InlineData("unknown", "x")]
    [InlineData("decision", "simple")]
    public void Evaluate_MemberThatIsNeverWritten_IsRefused(string name, string value)
    {
        var verdict = JsonNode.Parse(Whole)!.AsObject();
        verdict[name] = value;

        Assert.False(IsValid(verdict));
    }

    [Fact]
    public void Schema_ItsWords_AreThoseThatAreWritten()
    {
        var schema = JsonNode.Parse(VerdictSchema.Text)!["properties"]!;
        var finding = schema["findings"]!["items"]!["properties"]!;

        Assert.Equal(Enum.GetValues<Outcome>().Select(VerdictJson.WordOf), Words(finding["outcome"]!));
        Assert.Equal(Enum.GetValues<HoldCause>().Select(VerdictJson.WordOf).Order(), Words(finding["cause"]!).Concat(
            Words(schema["cause"]!)).Order());
        Assert.Equal(Enum.GetValues<Basis>().Select(VerdictJson.WordOf), Words(finding["reference"]!["properties"]!["basis"]!));
    }

    private static IEnumerable<string> Words(JsonNode member) => member["enum"]!.AsArray().Select(word => word!.GetValue<string>());

    private static IEnumerable<string> Described(JsonNode schema) => (schema["items"] ?? schema)["properties"]?.AsObject()
        .SelectMany(member => Described(member.Value!).Select(inner => $"{member.Key}.{inner}").Prepend(member.Key)) ?? [];

    private static IEnumerable<string> Members(JsonNode? written) =>
        (written as JsonArray is { } list ? list[0] : written) is JsonObject members
        ? members.SelectMany(member => Members(member.Value).Select(inner => $"{member.Key}.{inner}").Prepend(member.Key))
        : [];

    private static bool IsValid(JsonNode written)
    {
        using var document = JsonDocument.Parse(written.ToJsonString());
        return Schema.Evaluate(document.RootElement).IsValid;
    }
}
