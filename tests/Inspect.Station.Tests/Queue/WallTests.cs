using System.Net;
using Inspect.Station.Tests.Ground;
using static Inspect.Station.Tests.Queue.QueueSteps;

namespace Inspect.Station.Tests.Queue;

/// <summary>The wall screen and the link that opens it. The behaviour is defined by this project.</summary>
public sealed class WallTests
{
    [Fact]
    public async Task Wall_ByTheDirectorsLink_ShowsNumbersWithoutASignInAndNamesOnlyWhenLaidDown()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var anyone = await station.Client();
        await In(station, "101", "102");
        await Open(director, "Table 1");
        await Press(director, "/events/LANTERN/queue");
        var word = await Link(director);

        var wall = await anyone.GetPage($"/events/LANTERN/wall/{word}");
        Assert.Equal("Table 1", wall.QuerySelector(".called .now span")!.TextContent);
        Assert.Single(wall.QuerySelectorAll(".next-up strong"));
        Assert.DoesNotContain("Aoife", wall.DocumentElement.OuterHtml, StringComparison.Ordinal);
        Assert.DoesNotContain("Łucja", wall.DocumentElement.OuterHtml, StringComparison.Ordinal);

        using var named = await director.Send(await director.GetPage("/events/LANTERN/table"), ("names", "shown"));
        wall = await anyone.GetPage($"/events/LANTERN/wall/{word}");
        Assert.Equal(["Aoife B.", "Łucja W."], wall.QuerySelectorAll("em").Select(name => name.TextContent).Order(StringComparer.Ordinal));
        Assert.DoesNotContain("Brannock", wall.DocumentElement.OuterHtml, StringComparison.Ordinal);

        // Without the word, with a wrong one, and with one that was replaced: nothing.
        using var unsigned = await anyone.GetAsync("/events/LANTERN/wall");
        Assert.StartsWith("/sign-in", unsigned.Headers.Location!.OriginalString.Replace(
            "http://localhost", "", StringComparison.Ordinal), StringComparison.Ordinal);
        var fresh = await Link(director);
        foreach (var wrong in (string[])[word, fresh[..^1], "x"])
        {
            using var refused = await anyone.GetAsync($"/events/LANTERN/wall/{wrong}");
            Assert.Equal(HttpStatusCode.NotFound, refused.StatusCode);
        }

        using var right = await anyone.GetAsync($"/events/LANTERN/wall/{fresh}");
        Assert.Equal("no-store", right.Headers.CacheControl!.ToString());
        Assert.Equal(15, int.Parse(
            (await right.Content.ReadAsStringAsync()).Split("http-equiv=\"refresh\" content=\"")[1].Split('"')[0],
            System.Globalization.CultureInfo.InvariantCulture));
    }

    private static async Task<string> Link(HttpClient director)
    {
        using var made = await director.Send(Form(await director.GetPage("/events/LANTERN/table"), "/table/wall"), ("act", "open"));
        return (await director.GetPage("/events/LANTERN/table")).QuerySelector(".wall-link")!.GetAttribute("href")!.Split('/')[^1];
    }
}
