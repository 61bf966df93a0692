using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Rules.Judging;
using Inspect.Rules.Tests.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Tests.Judging;

/// <summary>Verdicts kept since they were first reached: judging their sheets again gives the same bytes,
/// the wording of reasons aside.</summary>
/// <remarks>
/// They are of version 1 of the record, and are compared with what that version makes of a verdict: it words a margin as it did then. A
/// file for each edition, a line for each sheet: <c>sheet</c>, the <c>sha256</c> of the whole verdict, and in full what does not pass in
/// it. A line is never changed; new ones are added behind. The published cases of each edition name where they come from. A new edition has
/// no file yet: running these tests once with INSPECT_STORE_VERDICTS=1 writes it from some forty of its cases, and touches no other.
/// </remarks>
public class StoredVerdictTests
{
    private static readonly string Folder = Path.Combine(Book.Folder, "..", "tests", "Inspect.Rules.Tests", "Judging", "StoredVerdicts");

    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Judge_StoredSheet_GivesTheStoredBytes(string edition)
    {
        var lines = Stored(edition);

        Assert.NotEmpty(lines);
        Assert.All(lines, line =>
        {
            var stored = JsonNode.Parse(line)!.AsObject();
            Assert.Equal(line, Line(stored["sheet"]!.AsObject(), edition).ToJsonString());
        });
    }

    /// <summary>What a stored verdict reads back as is written as the same bytes again, in each version of the record.</summary>
    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Read_VerdictOfAStoredSheet_IsWrittenAsTheSameBytes(string edition) => Assert.All(Stored(edition), line =>
    {
        var verdict = Verdict(JsonNode.Parse(line)!["sheet"]!.AsObject(), edition);
        foreach (var version in new[] { VerdictJson.WordsOnly, VerdictJson.WithNumbers })
        {
            var recorded = VerdictJson.Recorded(verdict, version);
            var read = VerdictReader.Read(JsonSerializer.SerializeToElement(recorded), version);
            Assert.Equal(recorded.ToJsonString(), VerdictJson.Recorded(read, version).ToJsonString());
        }
    });

    /// <summary>Version 2 gives back every number as it was; version 1 as closely as its words say it, to half of the last of four
    /// decimals.</summary>
    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Read_VerdictOfAStoredSheet_HasItsNumbers(string edition) => Assert.All(Stored(edition), line =>
    {
        var verdict = Verdict(JsonNode.Parse(line)!["sheet"]!.AsObject(), edition);
        var words = Findings(VerdictJson.WordsOnly);
        var numbers = Findings(VerdictJson.WithNumbers);
        foreach (var (i, finding) in verdict.Findings.Index())
        {
            Assert.Equal((finding.Measured?.Exact, finding.Limit?.Limit, finding.Margin?.Exact),
                (numbers[i].Measured?.Exact, numbers[i].Limit?.Limit, numbers[i].Margin?.Exact));
            Near(finding.Measured, words[i].Measured);
            Near(finding.Margin, words[i].Margin);
            if (finding is { Measured.Exact: not null, Limit.Limit: { } limit }
                && !limit.ToString().Contains("for spread", StringComparison.Ordinal))
            {
                Assert.Equal(limit, words[i].Limit!.Limit);
            }
        }

        IReadOnlyList<Finding> Findings(int version) =>
            VerdictReader.Read(JsonSerializer.SerializeToElement(VerdictJson.Recorded(verdict, version)), version).Findings;
    });

    private static void Near(Amount? exact, Amount? read)
    {
        if (exact?.Exact is { } known)
        {
            var unit = known.Notation is { Unit: not Unit.Celsius } notation ? Units.Factor(notation.Unit) : 1m;
            Assert.InRange(read!.Value!.Value - known.Value, -0.00005m * unit, 0.00005m * unit);
        }
    }

    private static string[] Stored(string edition)
    {
        var file = Path.Combine(Folder, edition.Replace('/', '-') + ".jsonl");
        if (!File.Exists(file) && Environment.GetEnvironmentVariable("INSPECT_STORE_VERDICTS") == "1")
        {
            var lines = EditionCase.Of(edition)
                .Where(each => IsReadable(each.Sheet)).Select(each => Line(each.Sheet, edition).ToJsonString()).Distinct().ToList();
            File.WriteAllLines(file, lines.Where((_, i) => i % Math.Max(1, lines.Count / 40) == 0));
        }

        Assert.True(
            File.Exists(file), $"{edition} has no stored verdicts; run these tests once with INSPECT_STORE_VERDICTS=1 and keep the file.");
        return File.ReadAllLines(file);
    }

    private static bool IsReadable(JsonObject sheet)
    {
        var faults = new List<Fault>();
        SheetReader.Read(Encoding.UTF8.GetBytes(sheet.ToJsonString()), faults);
        return faults.Count == 0;
    }

    private static JsonObject Line(JsonObject sheet, string edition)
    {
        var verdict = VerdictJson.Recorded(Verdict(sheet, edition), VerdictJson.WordsOnly);
        foreach (var finding in verdict["findings"]!.AsArray())
        {
            finding!.AsObject().Remove("reason");
        }

        var hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(verdict.ToJsonString())));
        var notPassed = verdict["findings"]!
            .AsArray().Where(finding => (string?)finding!["outcome"] != "pass").Select(finding => finding!.DeepClone());
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
}
