using System.Text;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Judge;

/// <summary>A failed ball's page tells what could cure it, with the cautions; a passed one's does not.</summary>
[Collection(BrowserLooks.Name)]
public class AdvicePanelTests(BrowserFixture browser)
{
    [Fact]
    public async Task InspectionPage_BallThatFailedOnTopWeight_ShowsRemediesWithCautions()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        await Record(client, "3.2 oz", "advice-1");

        var page = await client.GetPage("/inspections/LANTERN-0001");

        var advice = page.QuerySelector(".advice")!;
        Assert.Contains("2 7/16 in deep", advice.TextContent, StringComparison.Ordinal);
        Assert.Contains("a qualified driller drills", advice.TextContent, StringComparison.Ordinal);
        Assert.Contains("Nothing may be changed during competition", advice.TextContent, StringComparison.Ordinal);
        Assert.Contains("these rules allow none", advice.TextContent, StringComparison.Ordinal);
        Assert.NotNull(page.QuerySelector("svg .pic-dot.outside"));
    }

    [Fact]
    public async Task InspectionPage_BallMeasuredAgainWithAnotherReading_AsksForASecondLook()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        await Record(client, "1 oz", "advice-1");
        await Record(client, "2 oz", "advice-2", "LANTERN-0001");

        var page = await client.GetPage("/inspections/LANTERN-0002");

        Assert.Contains("Now 2 oz, at the earlier inspection 1 oz", page.QuerySelector(".hints")!.TextContent, StringComparison.Ordinal);
        Assert.Null(page.QuerySelector(".advice"));
    }

    [Fact]
    public async Task InspectionPage_WithAdvice_IsAccessible()
    {
        await using var station = new StationFixture().Listen();
        using var client = await station.Client("inspector");
        await Record(client, "3.2 oz", "advice-1");
        await using var visit = await browser.Visit(station);
        await visit.SignIn("inspector", station.Passcode);

        await visit.Page.GotoAsync("/inspections/LANTERN-0001");
        await visit.Page.EvaluateAsync("document.querySelectorAll('details').forEach(each => each.open = true)");

        await visit.AssertAccessible(360, 1440);
    }

    private static async Task Record(HttpClient client, string top, string key, string? supersedes = null)
    {
        var events = System.Text.Json.Nodes.JsonNode.Parse(await client.GetStringAsync("/api/events"))!.AsArray();
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/inspections");
        request.Headers.Add("Idempotency-Key", key + "-0123456789abcdef");
        request.Content = new StringContent($$"""
            {"event":"LANTERN","entry":"101"{{(supersedes is null ? "" : $",\"supersedes\":\"{supersedes}\"")}},"sheet":{"play":"{{events[0]!["from"]}}",
            "grip":{"hand":"right","digits":["thumb","middle","ring"],"demonstrated":true},"ball":{"serial":"7K2M0419","listed":"yes"},
            "weights":{"gross":"14 lb 12 oz","topBottom":"{{top}}","leftRight":"0.5 oz","fingerThumb":"0.25 oz","scaleConstant":"4.25 in"},
            "size":{"diameters":["8.500 in","8.500 in"]},"holes":[
            {"kind":"grip","digit":"thumb","diameter":"1 1/16 in","depth":"2 3/4 in","position":{"arc":"2.5 in","azimuth":"270 deg"},"pitch":{"south":"3/8 in"},"secondaryHole":false},
            {"kind":"grip","digit":"middle","diameter":"31/32 in","depth":"2 in","position":{"arc":"2.35 in","azimuth":"106 deg"},"pitch":{"east":"3/8 in"},"secondaryHole":false},
            {"kind":"grip","digit":"ring","diameter":"15/16 in","depth":"2 in","position":{"arc":"2.35 in","azimuth":"74 deg"},"pitch":{"east":"-3/8 in"},"secondaryHole":false}] } }
            """, Encoding.UTF8, "application/json");
        using var answer = await client.SendAsync(request);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
    }
}
