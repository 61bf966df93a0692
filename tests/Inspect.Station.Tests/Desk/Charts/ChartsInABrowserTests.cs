using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Inspect.Station.Web;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Desk.Charts;

/// <summary>The charts of a small event on a phone, in both themes: WCAG 2.2 as axe checks it.</summary>
[Collection(BrowserLooks.Name)]
public class ChartsInABrowserTests(BrowserFixture browser)
{
    [Fact]
    public async Task Charts_OnAPhone_AreAccessibleAndAsWideAsTheScreen()
    {
        await using var station = new StationFixture().Listen();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        await inspector.Recorded(SampleSheets.Legal());
        await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), "102");
        var open = SampleSheets.Legal();
        open["size"]!.AsObject().Remove("circumference");
        await director.Recorded(open, "103");
        await using var visit = await browser.Visit(station, 360);
        await visit.SignIn("director", station.Passcode);

        await visit.Page.GotoAsync("/desk/events/LANTERN/charts");
        await visit.Page.EvaluateAsync("document.querySelectorAll('details').forEach(each => each.open = true)");

        Assert.True(await visit.Page.Locator("svg[role=img]").CountAsync() > 8);
        await visit.AssertAccessible();
    }

    /// <summary>Long names and squads that begin close together: no two labels touch, and none leaves its picture.</summary>
    [Theory]
    [InlineData(390)]
    [InlineData(1366)]
    public async Task Charts_ManyLongNames_AreDrawnWithoutOneOnAnother(int width)
    {
        await using var station = new StationFixture().Listen();
        var (signIns, gate) = (station.Services.GetRequiredService<SignIns>(), station.Services.GetRequiredService<WriteGate>());
        await signIns.TryAdd("Bartholomew Quince-Marrowby of Upper Quillhaven", "bart", "lantern passcode 7", Role.Inspector);
        var today = StationClock.Today.ToDateTime(new TimeOnly(10, 0));
        var demo = station.Services.GetRequiredService<Events>().Find(DemoEvent.Id)!;
        await gate.Run(write =>
        {
            Events.Add(write, demo with
            {
                Id = "BIG",
                Squads =
                [
                    .. new[] { "Early birds and seniors", "Mixed doubles, first half", "Juniors", "Ladies from the north", "B", "C" }
                        .Select((name, i) => new Squad(name, today.AddMinutes(30 * i))),
                ],
            });
            Events.Enter(write, "BIG", new NewEntry("101", "Þórdís Quellström", null));
            return 0;
        });
        using var director = await station.Client("director");
        using var bart = await station.Client();
        using var signedIn = await bart.PostAsJsonAsync("/api/session", new { name = "bart", passcode = "lantern passcode 7" });
        foreach (var client in new[] { director, bart })
        {
            foreach (var instrument in new[] { "Balance scale with the long name, number 14", "Digital scale of the north table, spare" })
            {
                var request = SampleSheets.Request(SampleSheets.TooHeavyOnTheLeft());
                request["event"] = "BIG";
                request["observations"] = new JsonArray(new JsonObject
                {
                    ["path"] = "weights.leftRight",
                    ["text"] = "-3.25 oz",
                    ["instrument"] = instrument,
                    ["trial"] = 1,
                });
                using var answer = await client.Record(request);
                Assert.Equal(System.Net.HttpStatusCode.Created, answer.StatusCode);
            }
        }

        await using var visit = await browser.Visit(station, width);
        await visit.SignIn("director", station.Passcode);
        await visit.Page.GotoAsync("/desk/events/BIG/charts");

        Assert.Equal("", string.Join('\n', await visit.Page.EvaluateAsync<string[]>(Labels.ThatTouch)));
        Assert.Contains(
            "Mixed doubles, first half, 10:30", await visit.Page.Locator("[aria-labelledby=hours]").TextContentAsync(),
            StringComparison.Ordinal);
    }

    /// <summary>The browser's own measure of the pages' letters is the reference: never wider than reckoned, nor much narrower.</summary>
    [Fact]
    public async Task Width_OfNames_IsWhatTheBrowserDraws()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        await visit.Page.GotoAsync("/before-drilling");
        string[] names = [
            "Side weight", "Balance scale no. 14", "Nguyễn Thị Bích Khuê", "Wendell Marrowby", "WILLOW MOOR", "5 of 17: 10 to 56 %",
            "26.704 in", "Łucja Wierzbosz", "squad Early birds, 10:30", "Illiil"];

        var drawn = await visit.Page.EvaluateAsync<double[]>(
            """
            async names => {
              await document.fonts.load("680 100px Inter", names.join(""));
              const pen = document.createElement("canvas").getContext("2d");
              pen.font = "680 100px Inter";
              return names.map(name => pen.measureText(name).width);
            }
            """, names);

        Assert.All(names.Zip(drawn), pair => Assert.InRange(Svg.Width(pair.First, 100), pair.Second, 1.25 * pair.Second));
    }
}
