using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>One case of a cases.json: a changed sheet and what the published rule says of it.</summary>
internal sealed record EditionCase(string Edition, string Name, string Source, JsonObject Sheet, JsonObject Expect)
{
    private static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false };

    /// <summary>All cases beside an edition.</summary>
    public static IReadOnlyList<EditionCase> Of(string edition)
    {
        var text = File.ReadAllText(Book.FileOf(edition, "cases.json"));
        var file = JsonNode.Parse(text, documentOptions: Strict)!.AsObject();
        var sheet = file["sheet"]!.AsObject();
        return file["cases"]!.AsArray().Select(one => new EditionCase(
            edition,
            (string)one!["name"]!,
            (string)one["source"]!,
            SheetChange.Apply(sheet, one["change"]!.AsObject()),
            one["expect"]!.AsObject())).ToList();
    }

    public IReadOnlyList<string> Fails => Expected("fails");

    public IReadOnlyList<string> Holds => Expected("holds");

    /// <summary>The verdict of the real reader and judge; of an edition that was corrected since, as the book was before that.</summary>
    public Verdict Judged() => Judged(Book.BuiltIn.RevisionOf(Book.Find(Edition)) is null ? Book.BuiltIn : Book.AsFirstPublished);

    /// <summary>The same among other editions.</summary>
    public Verdict Judged(Inspect.Rules.Rulesets.EditionLibrary library)
    {
        var faults = new List<Fault>();
        var sheet = SheetReader.Read(Encoding.UTF8.GetBytes(Sheet.ToJsonString()), faults);
        var verdict = sheet is null ? null : SheetJudge.Judge(library, sheet, faults);
        return verdict ?? throw new InvalidDataException($"{Edition}, {Name}: {string.Join(" ", faults)}");
    }

    private List<string> Expected(string name) => Expect[name]!.AsArray().Select(id => (string)id!).ToList();
}
