using System.IO.Compression;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Ledger;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Json;
using Inspect.Station.CommandLine;
using Inspect.Station.Desk.Charts;
using Inspect.Station.Record;
using Inspect.Station.Rulesets;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Record;

/// <summary>Records of version 1 are read for ever, and judging their sheets again gives their bytes; version 2 holds the numbers beside
/// the words.</summary>
/// <remarks>
/// The register in FirstVersion was exported on 27 November 2026 by the program as it stood before version 2: balls that pass and fail by
/// depth, width, side, weight and count, averages and spreads, a house ball, limits from memory, and five judged with the rules of an
/// invented event beside the edition, by guarded acceptance and rejection. Those rules stand beside it. The balls and bowlers are
/// invented.
/// </remarks>
public sealed class FirstVersionRecordsTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "tests", "Inspect.Station.Tests", "Record", "FirstVersion");

    private static readonly string[] Inspections = Exported()
        .Split('\n').Where(line => line.Contains("\"kind\":\"inspection\"", StringComparison.Ordinal)).ToArray();

    [Fact]
    public void Read_RecordOfVersion1_IsWrittenAsItsBytes() => Assert.All(Inspections, line =>
        Assert.Equal(Verdict(line), Canonical(VerdictJson.Recorded(Read(line).Verdict, VerdictJson.WordsOnly))));

    [Fact]
    public void Judge_SheetOfVersion1_GivesTheRecordedBytes()
    {
        var editions = RulesetBook.Open(null, [])!.Editions;
        var supplement = SupplementLoader.Load(File.ReadAllBytes(Path.Combine(Folder, "lantern-open.json")), new List<Fault>())!;
        Assert.Equal(19, Inspections.Length);
        Assert.All(Inspections, line =>
        {
            var inspection = Read(line);
            Assert.True(editions.TryFind(inspection.Verdict.Edition!.Id, out var edition));
            var terms = inspection.Terms with { Supplements = inspection.Verdict.Supplements.Count == 0 ? [] : [supplement] };
            Assert.Equal(Verdict(line), Canonical(
                VerdictJson.Recorded(Rules.Judging.Judge.Under(edition, inspection.Sheet, terms), VerdictJson.WordsOnly)));
        });
    }

    /// <summary>1 oz is 28.349523125 g and 1 in is 25.4 mm exactly (international yard and pound agreement of 1959).</summary>
    [Theory]
    [InlineData("LANTERN-0002", "left-right", "-92.13595015625", "85.048569375", "-7.08738078125", "-0.25 oz")]
    [InlineData("LANTERN-0003", "grip-hole-depth", "127.0", "114.3", "-12.7", "-0.5 in")]
    [InlineData("LANTERN-0005", "gross-weight", "7260.3128723125", "7257.47792", "-2.8349523125", "-0.1 oz")]
    [InlineData("LANTERN-0012", "grip-hole-count", "7", "5", "-2", "-2")]
    [InlineData("LANTERN-0010", "approved-list", null, null, null, null)]
    public void Read_RecordOfVersion1_HasItsNumbers(
        string number, string rule, string? measured, string? most, string? margin, string? words)
    {
        var finding = Inspections.Select(Read)
            .Single(one => one.Number.ToString() == number).Verdict.Findings.First(one => one.Rule == rule);

        Assert.Equal((Number(measured), Number(most), Number(margin), words),
            (finding.Measured?.Value, finding.Limit?.Limit?.Most?.Value, finding.Margin?.Value, finding.Margin?.ToString()));
    }

    [Fact]
    public void BodyReader_RecordOfVersion1_PicksWhatTheWholeReaderReads()
    {
        var reader = new BodyReader();
        Assert.All(Inspections, line => Assert.Equal(
            Read(line).Verdict.Findings.Select(
                finding => new CountedFinding(finding.Rule, finding.Path, finding.Outcome, finding.Measured?.Measure, finding.Limit)),
            reader.Read(Encoding.UTF8.GetBytes(line)).Findings));
    }

    /// <summary>Fourteen were judged under the edition alone.</summary>
    [Fact]
    public void Replay_RegisterOfVersion1_GivesTheSameBytes()
    {
        using var output = new StringWriter();
        using var input = new MemoryStream(Encoding.UTF8.GetBytes(Exported()));

        Assert.Equal(0, ReplayVerb.Run(["-", "--bytes"], input, output, TextWriter.Null));
        Assert.Equal((19, 14), ((int)JsonNode.Parse(output.ToString())!["judged"]!, (int)JsonNode.Parse(output.ToString())!["sameBytes"]!));
    }

    [Fact]
    public async Task Record_NewInspection_IsOfTheLatestVersionAndHoldsItsNumbers()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        await inspector.Recorded(SampleSheets.Legal());
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        var body = Register.BodyOf(connection, station.Services.GetRequiredService<WriteGate>().Head.Size)!;
        var line = Encoding.UTF8.GetString(body);
        var findings = JsonNode.Parse(body)!["verdict"]!["findings"]!.AsArray();

        Assert.Equal(VerdictJson.Latest, (int)JsonNode.Parse(body)!["v"]!);
        Assert.Equal("2 1/2 in", (string?)findings.Single(one => (string?)one!["path"] == "holes[1].depth")!["margin"]);
        Assert.Equal(
            """
            {"limit":{"atMost":{"fraction":true,"text":"4 1/2 in","unit":"mm","value":"114.3","written":"in"}},"margin":{"fraction":true,"unit":"mm","value":"63.5","written":"in"},"measured":{"unit":"mm","value":"50.8","written":"in"}}
            """,
            findings.Single(one => (string?)one!["path"] == "holes[1].depth")!["exact"]!.ToJsonString());
        Assert.Equal(Verdict(line), Canonical(VerdictJson.Recorded(Read(line).Verdict, VerdictJson.Latest)));

        using var output = new StringWriter();
        using var input = new MemoryStream(await director.GetByteArrayAsync("/api/register.jsonl"));
        Assert.Equal(0, ReplayVerb.Run(["-", "--bytes"], input, output, TextWriter.Null));
        Assert.Equal(1, (int)JsonNode.Parse(output.ToString())!["sameBytes"]!);
    }

    private static string Exported()
    {
        using var packed = new GZipStream(File.OpenRead(Path.Combine(Folder, "register.jsonl.gz")), CompressionMode.Decompress);
        using var text = new StreamReader(packed, Encoding.UTF8);
        return text.ReadToEnd();
    }

    private static Inspection Read(string line) => InspectionBody.Read(Encoding.UTF8.GetBytes(line));

    private static string Verdict(string line) => Canonical(JsonNode.Parse(line)!["verdict"]!);

    private static string Canonical(JsonNode verdict) => Encoding.UTF8.GetString(CanonicalJson.Write(verdict));

    private static decimal? Number(string? text) =>
        text is null ? null : decimal.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
