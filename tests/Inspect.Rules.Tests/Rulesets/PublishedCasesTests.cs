using System.Text;
using System.Text.Json.Nodes;
using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>Sheets whose outcome a published rule gives, each naming the document it is given by.</summary>
public class PublishedCasesTests
{
    private static readonly JsonObject Written = JsonNode.Parse(File.ReadAllText(Path.Combine(
        Book.Folder, "..", "tests", "Inspect.Rules.Tests", "Rulesets", "PublishedCases.json")))!.AsObject();

    private static readonly IReadOnlyList<JsonObject> Cases = Written["cases"]!.AsArray().Select(one => one!.AsObject()).ToList();

    public static TheoryData<string> Names => [.. Cases.Select(one => (string)one["name"]!)];

    [Fact]
    public void Cases_All_AreDifferentAndNameTheirSource()
    {
        Assert.Equal(46, Cases.Select(one => (string)one["name"]!).Distinct().Count());
        Assert.All(Cases, one => Assert.False(string.IsNullOrWhiteSpace((string?)one["source"])));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Judge_Sheet_AgreesWithThePublishedRule(string name)
    {
        var one = Cases.Single(candidate => (string?)candidate["name"] == name);
        var written = SheetChange.Apply(Written["sheet"]!.AsObject(), one["change"]!.AsObject());
        var expect = one["expect"]!.AsObject();
        var faults = new List<Fault>();

        var sheet = SheetReader.Read(Encoding.UTF8.GetBytes(written.ToJsonString()), faults);

        if ((string?)expect["error"] is { } path)
        {
            Assert.Equal([path], faults.Select(fault => fault.Path));
            return;
        }

        var verdict = SheetJudge.Judge(Book.BuiltIn, sheet!, faults);
        Assert.Empty(faults);
        Assert.Equal((string?)expect["outcome"], VerdictJson.WordOf(verdict!.Outcome));
        Assert.Equal(Ids(expect, "fails"), Ids(verdict, Outcome.Fail));
        Assert.Equal(Ids(expect, "holds"), Ids(verdict, Outcome.Hold));
    }

    private static IEnumerable<string> Ids(JsonObject expect, string name) =>
        expect[name]!.AsArray().Select(id => (string)id!).Order(StringComparer.Ordinal);

    private static IEnumerable<string> Ids(Verdict verdict, Outcome outcome) => verdict.Findings
        .Where(finding => finding.Outcome == outcome).Select(finding => finding.Rule).Distinct().Order(StringComparer.Ordinal);
}
