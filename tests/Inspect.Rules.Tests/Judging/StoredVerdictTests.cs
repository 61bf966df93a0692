using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Rules.Json;
using Inspect.Rules.Judging;
using Inspect.Rules.Sheets;
using Inspect.Rules.Tests.Rulesets;

namespace Inspect.Rules.Tests.Judging;

/// <summary>Verdicts kept since they were first reached: judging their sheets again gives the same bytes, the wording of reasons aside.</summary>
/// <remarks>
/// A file for each edition, a line for each sheet: <c>sheet</c>, the <c>sha256</c> of the whole verdict, and in full what does not pass in it.
/// A line is never changed; new ones are added behind. The published cases of each edition name where they come from.
/// </remarks>
public class StoredVerdictTests
{
    private static readonly string Folder = Path.Combine(Book.Folder, "..", "tests", "Inspect.Rules.Tests", "Judging", "StoredVerdicts");

    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Judge_StoredSheet_GivesTheStoredBytes(string edition)
    {
        var lines = File.ReadAllLines(FileOf(edition));

        Assert.NotEmpty(lines);
        Assert.All(lines, line =>
        {
            var stored = JsonNode.Parse(line)!.AsObject();
            Assert.Equal(line, Line(stored["sheet"]!.AsObject(), edition).ToJsonString());
        });
    }

    /// <summary>What a stored verdict reads back as is written as the same bytes again.</summary>
    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Read_VerdictOfAStoredSheet_IsWrittenAsTheSameBytes(string edition) => Assert.All(File.ReadAllLines(FileOf(edition)), line =>
    {
        var verdict = VerdictJson.Write(Verdict(JsonNode.Parse(line)!["sheet"]!.AsObject(), edition));
        Assert.Equal(verdict.ToJsonString(), VerdictJson.Write(VerdictReader.Read(verdict)).ToJsonString());
    });

    private static JsonObject Line(JsonObject sheet, string edition)
    {
        var verdict = VerdictJson.Write(Verdict(sheet, edition));
        foreach (var finding in verdict["findings"]!.AsArray())
        {
            finding!.AsObject().Remove("reason");
        }

        var hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(verdict.ToJsonString())));
        var notPassed = verdict["findings"]!.AsArray().Where(finding => (string?)finding!["outcome"] != "pass").Select(finding => finding!.DeepClone());
        return new JsonObject
        {
            ["sheet"] = sheet.DeepClone(),
            ["outcome"] = (string?)verdict["outcome"],
            ["sha256"] = hash,
            ["notPassed"] = new JsonArray([.. notPassed]),
        };
    }

    private static Verdict Verdict(JsonObject sheet, string edition)
    {
        var faults = new List<Fault>();
        var read = SheetReader.Read(Encoding.UTF8.GetBytes(sheet.ToJsonString()), faults);
        Assert.Empty(faults);
        return Judge.Under(Book.Find(edition), read!);
    }

    private static string FileOf(string edition) => Path.Combine(Folder, edition.Replace('/', '-') + ".jsonl");
}
