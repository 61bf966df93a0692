using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Inspect.Station.Record;
using Inspect.Station.Tests.Decide;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Scan;

/// <summary>What a scan shows, and what it never shows. The behaviour is defined by this project.</summary>
public sealed class ScanTests
{
    [Fact]
    public async Task Scan_RecordedBall_ShowsVerdictBallGripAndDaysButNoBowler()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var recorded = await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), entry: "102");
        using var anyone = await station.Client();

        using var page = await anyone.GetAsync(recorded["links"]!["scan"]!.GetValue<string>());
        var shown = await page.Read();

        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
        var text = shown.Body!.Words();
        Assert.Contains("You may not bowl with this ball", text, StringComparison.Ordinal);
        Assert.Contains("The left side is 3.25 oz (92.1 g) heavier than the right side", text, StringComparison.Ordinal);
        Assert.Contains("9QF31207", text, StringComparison.Ordinal);
        Assert.Contains("Right hand, thumb, middle finger and ring finger in holes", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Wierzbosz", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Scan_Json_TellsTheSame()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var recorded = await inspector.Recorded(SampleSheets.Legal(), entry: "102");
        using var anyone = await station.Client();

        var text = await anyone.GetStringAsync($"/api/slips/{recorded["code"]}");

        var slip = JsonNode.Parse(text)!;
        Assert.Equal("stands", slip["standing"]!.GetValue<string>());
        Assert.Equal("pass", slip["verdict"]!["outcome"]!.GetValue<string>());
        Assert.DoesNotContain("Wierzbosz", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Scan_SupersededSlip_SaysSoBeforeAllElse()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var first = await inspector.Recorded(SampleSheets.Legal());
        var again = SampleSheets.Request(SampleSheets.TooHeavyOnTheLeft());
        again["supersedes"] = first["number"]!.GetValue<string>();
        using var second = await inspector.Record(again);
        using var anyone = await station.Client();

        var page = await anyone.GetPage($"/s/{first["code"]}");
        var slip = (await anyone.GetFromJsonAsync<JsonObject>($"/api/slips/{first["code"]}"))!;

        Assert.Equal("This slip no longer counts", page.QuerySelector("main h1")!.TextContent);
        Assert.DoesNotContain("You may bowl", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains("Slip LANTERN-0002 counts now", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal("superseded", slip["standing"]!.GetValue<string>());
        Assert.Equal("LANTERN-0002", slip["replacedBy"]!.GetValue<string>());
    }

    [Fact]
    public async Task Scan_SlipReplacedTwice_NamesTheOneThatCountsNow()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        using var anyone = await station.Client();
        var first = await inspector.Recorded(SampleSheets.Legal());
        foreach (var replaced in (string[])["LANTERN-0001", "LANTERN-0002"])
        {
            var again = SampleSheets.Request(SampleSheets.Legal());
            again["supersedes"] = replaced;
            using var later = await inspector.Record(again);
            Assert.Equal(HttpStatusCode.Created, later.StatusCode);
        }

        var page = await anyone.GetPage($"/s/{first["code"]}");
        Assert.Equal("The ball was measured again. Slip LANTERN-0003 counts now: scan that one.", page.QuerySelector(".next")!.Words());

        using var withdrawn = await RulingSteps.Rule(director, "LANTERN-0003", "withdraw", "Entered under the wrong bowler");
        Assert.Equal(HttpStatusCode.Created, withdrawn.StatusCode);
        page = await anyone.GetPage($"/s/{first["code"]}");
        Assert.Equal("This slip no longer counts", page.QuerySelector("h1")!.Words());
        Assert.Equal("Have the ball measured again before you bowl with it.", page.QuerySelector(".next")!.Words());
    }

    [Fact]
    public async Task Scan_WrongCodes_AllAnswerAlike()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var code = (await inspector.Recorded(SampleSheets.Legal()))["code"]!.GetValue<string>();
        using var anyone = await station.Client();
        var oneOff = (code[0] == 'A' ? 'B' : 'A') + code[1..];
        string[] wrong = [oneOff, SlipCode.Draw().ToString(), "NONSENSE", new string('0', 14)];

        var answers = new HashSet<string>();
        foreach (var each in wrong)
        {
            using var page = await anyone.GetAsync($"/s/{each}");
            Assert.Equal(HttpStatusCode.NotFound, page.StatusCode);
            var shown = await page.Read();
            shown.QuerySelector(".request-id")!.Remove();
            answers.Add(shown.QuerySelector("main")!.TextContent.Trim());
        }

        Assert.Single(answers);
    }

    [Fact]
    public async Task Scan_LowerCaseAndMisreadLetters_FindTheSlip()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var code = (await inspector.Recorded(SampleSheets.Legal()))["code"]!.GetValue<string>();
        using var anyone = await station.Client();

        var misread = code.ToLowerInvariant().Replace('0', 'o').Replace('1', 'i');
        using var page = await anyone.GetAsync($"/S/{misread}");

        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
    }
}
