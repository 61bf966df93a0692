using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Instruments;
using Inspect.Station.Tests.Record;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Desk;

/// <summary>The story of a ball, over HTTP and as a director walks to it. The behaviour is defined by this project.</summary>
[Collection(BrowserLooks.Name)]
public sealed class BallStoryTests(BrowserFixture browser)
{
    [Fact]
    public async Task Story_TwoInspectionsAndARuling_TellsThemInTimeWithWhatChanged()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var (first, second, ball) = await Measured(inspector);
        using var ruled = await Rule(director, second, "withdraw", "The wrong ball was on the scale");
        Assert.Equal(HttpStatusCode.Created, ruled.StatusCode);

        var page = await director.GetPage($"/desk/balls/{ball}");

        var happenings = page.QuerySelectorAll(".story > li").ToList();
        Assert.Equal(
            [$"{first} recorded", $"{second} recorded", $"Ruling on {second}"],
            happenings.Select(each => each.QuerySelector("h2")!.TextContent.Trim()));
        Assert.Equal($"/inspections/{first}", happenings[0].QuerySelector("h2 a")!.GetAttribute("href"));
        Assert.Contains("Ida Morrowgate at Quillhaven Lantern Open, entry 103", happenings[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("Scale 2: 3.25 oz, ball turned, trial 2", happenings[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("Not measured on purpose: top (+) or bottom (-) weight, "
            + "the cradle was in use.", happenings[0].TextContent, StringComparison.Ordinal);
        Assert.Contains($"{second} replaced it.", happenings[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("Hollis Vantreight", happenings[2].TextContent, StringComparison.Ordinal);
        Assert.Contains("The wrong ball was on the scale", happenings[2].TextContent, StringComparison.Ordinal);
        var changes = happenings[1].QuerySelectorAll("table.changes")[0].QuerySelectorAll("tbody tr")
            .ToDictionary(row => row.Children[0].TextContent, row => $"{row.Children[1].TextContent} > {row.Children[2].TextContent}");
        Assert.Equal(
            new Dictionary<string, string>
            {
                ["verdict"] = "Fail > Pass",
                ["rule on top or bottom weight"] = "open > met",
                ["rule on side weight"] = "not met > met",
                ["right (+) or left (-) weight"] = "-3.25 oz > -2.5 oz",
                ["top (+) or bottom (-) weight"] = "– > 1.25 oz",
                ["middle: depth"] = "2 in > 2 1/2 in",
            }.OrderBy(each => each.Key, StringComparer.Ordinal),
            changes.OrderBy(each => each.Key, StringComparer.Ordinal));
    }

    [Fact]
    public async Task Story_AnInstrumentThatFailedLater_TellsTheChecksOnEitherSideAndTheCallingBack()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        foreach (var _ in new[] { 1, 2 })
        {
            using var good = await inspector.CheckScale("3.5 oz");
            Assert.Equal(HttpStatusCode.Found, good.StatusCode);
        }

        var number = await inspector.Weighed("Scale 1");
        await inspector.FailScale();
        Assert.Contains(
            "Scale 1, failed its check", (await inspector.GetPage("/instruments")).QuerySelector("select")!.TextContent,
            StringComparison.Ordinal);
        using var later = await inspector.CheckScale("3.5 oz");
        var ball = (await inspector.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!["ball"]!.GetValue<string>();

        var page = await director.GetPage($"/desk/balls/{ball}");

        // Only the last check before the ball and the first after it speak for it.
        Assert.Equal(
            ["Check of Scale 1: good", $"{number} recorded", "Check of Scale 1: failed", $"{number} called back"],
            page.QuerySelectorAll(".story > li h2").Select(title => title.TextContent.Trim()));
        Assert.Contains("so this is outside", page.QuerySelectorAll(".story > li")[2].TextContent, StringComparison.Ordinal);
        Assert.Contains("Not to be used: to be measured again",
            (await inspector.GetPage($"/inspections/{number}")).QuerySelector(".overruled")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Story_HolesInAnotherOrder_IsNoChange()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var first = await director.Recorded(SampleSheets.Legal());
        var sheet = SampleSheets.Legal();
        sheet["holes"] = new JsonArray([.. sheet["holes"]!.AsArray().Reverse().Select(hole => hole!.DeepClone())]);
        var request = SampleSheets.Request(sheet);
        request["supersedes"] = first["number"]!.DeepClone();
        using var answer = await director.Record(request);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        var record = (await director.GetFromJsonAsync<JsonObject>($"/api/inspections/{first["number"]}"))!;

        var page = await director.GetPage($"/desk/balls/{record["ball"]}");

        Assert.Equal(2, page.QuerySelectorAll(".story > li").Length);
        Assert.DoesNotContain("Changed since", page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Story_UnknownBallOrInspector_IsRefused()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");

        using var unknown = await director.GetAsync("/desk/balls/0000000000000000");
        using var refused = await inspector.GetAsync("/desk/balls/0000000000000000");

        Assert.Equal(HttpStatusCode.NotFound, unknown.StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
    }

    [Fact]
    public async Task Director_FindsABallInTwoSteps_AndReadsItsStory()
    {
        await using var station = new StationFixture().Listen();
        using var inspector = await station.Client("inspector");
        var (first, second, _) = await Measured(inspector);
        await using var visit = await browser.Visit(station, 360);
        await visit.SignIn("director", station.Passcode);
        await visit.Page.GotoAsync("/desk");

        await visit.Page.GetByLabel("Find").FillAsync("quell tomas");
        await visit.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(visit.Page.Locator(".finds tbody tr")).ToHaveCountAsync(2);
        await visit.AssertAccessible();
        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "the ball's story" }).First.ClickAsync();

        await Assertions.Expect(visit.Page.Locator(".story > li")).ToHaveCountAsync(2);
        await visit.AssertAccessible();
        await visit.Page.GetByText("Everything that was read").First.ClickAsync();
        await Assertions.Expect(visit.Page.GetByText("Scale 2: -3.25 oz, trial 1")).ToBeVisibleAsync();
        await visit.AssertAccessible();
        await visit.Page.GetByRole(AriaRole.Link, new() { Name = $"{first} recorded" }).ClickAsync();
        await visit.Page.GetByRole(AriaRole.Link, new() { Name = "This ball's story" }).ClickAsync();
        await Assertions.Expect(visit.Page.Locator("h1")).ToContainTextAsync("7O12SZ88");
        await Assertions.Expect(visit.Page.GetByRole(AriaRole.Main)).ToContainTextAsync(second);
    }

    /// <summary>A ball too heavy on the left with its observations, and the same again after the middle hole was deepened.</summary>
    private static async Task<(string First, string Second, string Ball)> Measured(HttpClient inspector)
    {
        var sheet = SampleSheets.TooHeavyOnTheLeft();
        sheet["ball"]!["serial"] = "7O12SZ88";
        sheet["weights"]!.AsObject().Remove("topBottom");
        var request = SampleSheets.Request(sheet, "103");
        request["observations"] = new JsonArray(
            new JsonObject { ["path"] = "weights.leftRight", ["text"] = "-3.25 oz", ["instrument"] = "Scale 2", ["trial"] = 1 },
            new JsonObject
            {
                ["path"] = "weights.leftRight",
                ["text"] = "3.25 oz",
                ["instrument"] = "Scale 2",
                ["turned"] = true,
                ["trial"] = 2,
            });
        request["notMeasured"] = new JsonArray(new JsonObject { ["path"] = "weights.topBottom", ["reason"] = "the cradle was in use" });
        var first = await Recorded(inspector, request);

        var again = SampleSheets.Legal();
        again["ball"]!["serial"] = "7O12SZ88";
        again["weights"]!["leftRight"] = "-2.5 oz";
        again["holes"]![1]!["depth"] = "2 1/2 in";
        var second = SampleSheets.Request(again, "103");
        second["supersedes"] = first;
        var number = await Recorded(inspector, second);
        var record = (await inspector.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!;
        return (first, number, record["ball"]!.GetValue<string>());
    }

    private static async Task<string> Recorded(HttpClient client, JsonObject request)
    {
        using var answer = await client.Record(request);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, await answer.Content.ReadAsStringAsync());
        return (await answer.Content.ReadFromJsonAsync<JsonObject>())!["number"]!.GetValue<string>();
    }

    /// <summary>Rules on an inspection.</summary>
    internal static async Task<HttpResponseMessage> Rule(HttpClient director, string number, string decision, string reason)
    {
        using var message = new HttpRequestMessage(HttpMethod.Post, $"/api/inspections/{number}/rulings");
        message.Content = new StringContent(
            new JsonObject { ["decision"] = decision, ["reason"] = reason }.ToJsonString(), Encoding.UTF8, "application/json");
        message.Headers.Add("Idempotency-Key", Guid.NewGuid().ToString("N"));
        return await director.SendAsync(message);
    }
}
