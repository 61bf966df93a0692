using System.Text.Json.Nodes;
using Inspect.Station.CommandLine;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.CommandLine;

public sealed class ReplayVerbTests : IDisposable
{
    private const string Legal =
        """{"play":"2024-03-10","authority":"us-national","plan":["gross-weight","left-right"],"weights":{"gross":"15 lb","leftRight":"2 oz"},"holes":[{"kind":"grip","digit":"thumb"}]}""";

    private const string Supplement = """
        {"supplement":"lantern-open","version":"2026-11-01","title":"Lantern Open","authority":"us-national","sources":{"r":{"title":"Rules","basis":"official"}},
        "rules":[{"rule":"left-right","kind":"limit","quantity":"leftRight","when":{"gross":{"over":"10 lb"}},"atMost":"LIMIT","source":"r","pass":"{limit}","fail":"{limit}"}]}
        """;

    private readonly string _folder = Directory.CreateTempSubdirectory("replay").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Run_BareSheets_AreComparedWithTheirOwnAuthority()
    {
        var csv = Path.Combine(_folder, "changes.csv");
        var (exit, report, error) = Replay(
            Legal + "\n" + Legal.Replace("2 oz", "1 oz", StringComparison.Ordinal), "--edition", "us-national/2014-05-07", "--csv", csv);

        Assert.Equal((0, ""), (exit, error));
        Assert.Equal((2, 1), ((int)report!["judged"]!, (int)report["verdictsChanged"]!));
        Assert.Equal("entry 1", (string?)report["changes"]![0]!["inspection"]);
        Assert.Contains(
            "entry 1,us-national/2014-05-07,pass,fail,left-right,pass,fail\r\n", File.ReadAllText(csv), StringComparison.Ordinal);
    }

    [Fact]
    public void Run_Supplement_TightensAndOneThatLoosensIsNamed()
    {
        var (exit, tight, _) = Replay(
            Legal, "--supplement", Written("tight.json", Supplement.Replace("LIMIT", "1.5 oz", StringComparison.Ordinal)));
        Assert.Equal((0, 1), (exit, (int)tight!["verdictsChanged"]!));

        (exit, var loose, _) = Replay(
            Legal, "--supplement", Written("loose.json", Supplement.Replace("LIMIT", "4 oz", StringComparison.Ordinal)));
        Assert.Equal(3, exit);
        Assert.Contains("\"at most 4 oz\"", (string?)loose!["notJudged"]![0]!["reason"], StringComparison.Ordinal);
    }

    [Fact]
    public void Run_GuardedDecision_TakesUncertaintiesFromTheTerms()
    {
        var terms = Written(
            "terms.json",
            """{"uncertainties":[{"quantity":"leftRight","resolution":"0.1 oz","repeatability":"0.03 oz","betweenOperators":"0.03 oz"}]}""");
        var near = Legal.Replace("2 oz", "2.95 oz", StringComparison.Ordinal);

        var (exit, report, _) = Replay(near, "--terms", terms, "--decision", "guarded-acceptance", "--factor", "2");

        Assert.Equal(0, exit);
        Assert.Equal("hold", (string?)report!["changes"]![0]!["now"]);
    }

    [Theory]
    [InlineData("--decision guarded-acceptance --factor 2", "--terms")]
    [InlineData("--decision coin --factor 2", "is not a decision rule")]
    [InlineData("--factor 2", "goes with a guarded decision")]
    [InlineData("--edition us-national/2014-05-07 --authority canada", "more than one of --edition, --authority")]
    [InlineData("--edition us-national/1999-01-01", "is not an edition known here")]
    [InlineData("--authority atlantis", "is not a body known here")]
    [InlineData("--csv", "needs a value after it")]
    [InlineData("--colour red", "replay needs one file")]
    [InlineData("--colour", "is not an option here")]
    [InlineData("--supplement /nowhere/at/all.json", "cannot be read")]
    public void Run_WrongCommand_SaysWhatIsWrong(string options, string words)
    {
        var (exit, _, error) = Replay(Legal, options.Split(' '));

        Assert.Equal(3, exit);
        Assert.Contains(words, error, StringComparison.Ordinal);
    }

    /// <summary>The register as a director exports it: its inspections are judged again, its closing line is none.</summary>
    [Fact]
    public async Task Run_ExportedRegister_IsJudgedAgain()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        await inspector.Recorded(SampleSheets.Legal());
        var side = SampleSheets.Legal();
        side["weights"]!["leftRight"] = "2 oz";
        await inspector.Recorded(side);
        var register = await director.GetStringAsync("/api/register.jsonl");

        var (exit, own, _) = Replay(register);
        Assert.Equal((0, 2, 0), (exit, (int)own!["judged"]!, (int)own["verdictsChanged"]!));

        (exit, var old, _) = Replay(register, "--edition", "us-national/2014-05-07");
        Assert.Equal((0, 1), (exit, (int)old!["verdictsChanged"]!));
        Assert.Equal(("LANTERN-0002", "fail"), (
            (string?)old["changes"]!.AsArray().Last()!["inspection"], (string?)old["changes"]!.AsArray().Last()!["now"]));
    }

    [Fact]
    public void Run_UnreadableLine_IsNamedAndTheRestGoesOn()
    {
        var (exit, report, _) = Replay(string.Join(
            "\n", Legal, Legal.Replace("2 oz", "2,5 oz", StringComparison.Ordinal), """{"kind":"ruling"}""", """{"kind":"inspection"}""",
            Legal),
            "--authority", "us-national");

        Assert.Equal((3, 2), (exit, (int)report!["judged"]!));
        Assert.Equal(["entry 2", "entry 4"], report["notJudged"]!.AsArray().Select(one => (string?)one!["inspection"]));
    }

    /// <summary>More than is read at once, judged on all processors: the report is in the order of the
    /// file, and says the place of each.</summary>
    [Fact]
    public void Run_FileOfManyPieces_IsReportedInItsOrder()
    {
        var lines = Enumerable.Range(1, 2_000).Select(place => Legal.Replace(
            "2 oz", place % 100 == 7 ? "2,5 oz" : place % 3 == 0 ? "2 oz" : "1 oz", StringComparison.Ordinal));

        var (exit, report, _) = Replay(string.Join("\n", lines), "--edition", "us-national/2014-05-07");

        Assert.Equal((3, 1_980), (exit, (int)report!["judged"]!));
        Assert.Equal(
            Enumerable.Range(1, 2_000).Where(place => place % 3 == 0 && place % 100 != 7).Select(place => $"entry {place}"),
            report["changes"]!.AsArray().Select(one => (string?)one!["inspection"]));
        Assert.Equal(
            Enumerable.Range(0, 20).Select(hundred => $"entry {(100 * hundred) + 7}"),
            report["notJudged"]!.AsArray().Select(one => (string?)one!["inspection"]));
    }

    [Fact]
    public void Run_Stopped_GivesNoReport()
    {
        using var output = new StringWriter();

        Assert.Throws<OperationCanceledException>(() => ReplayVerb.Run(
            [Written("recorded.jsonl", Legal)], Stream.Null, output, TextWriter.Null, stop: new CancellationToken(canceled: true)));
        Assert.Equal("", output.ToString());
    }

    [Fact]
    public void Run_FileWithoutAnEnd_IsNamedAndNotKeptInMemory()
    {
        var (exit, report, _) = Replay(Legal + "\n{\"play\":[" + new string('1', 17 * 1024 * 1024));

        Assert.Equal((3, 1), (exit, (int)report!["judged"]!));
        var reason = (string?)Assert.Single(report["notJudged"]!.AsArray())!["reason"];
        Assert.Contains("does not end within 16 MiB", reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Report_RuleThatFails_NamesTheFirstOfEachCause()
    {
        var options = ReplayOptions.Of([Written("recorded.jsonl", $"{Legal}\n{Legal}"), "--edition", BrokenEdition.Id], [])!;

        var report = ReplayVerb.Report(options, BrokenEdition.Editions(), Stream.Null);

        using var error = new StringWriter();
        new RuleErrorLines(error).Add(report.RuleErrors);
        Assert.Equal(2, report.Judged);
        Assert.Equal("gross-weight", Assert.Single(report.RuleErrors).Rule);
        Assert.StartsWith(
            $"Rule gross-weight of {BrokenEdition.Id} failed, so it holds the ball: System.", error.ToString(), StringComparison.Ordinal);
    }

    private string Written(string name, string text)
    {
        var file = Path.Combine(_folder, name);
        File.WriteAllText(file, text);
        return file;
    }

    private (int Exit, JsonNode? Report, string Error) Replay(string lines, params string[] options)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var exit = ReplayVerb.Run([Written("recorded.jsonl", lines), .. options], Stream.Null, output, error);
        return (exit, output.ToString().Length > 0 ? JsonNode.Parse(output.ToString()) : null, error.ToString());
    }
}
