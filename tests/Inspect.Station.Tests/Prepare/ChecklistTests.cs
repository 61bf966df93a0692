using System.Net;
using AngleSharp.Dom;
using Inspect.Station.Home;
using Inspect.Station.Prepare;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Instruments;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Prepare;

/// <summary>What a director still has to do before the doors open, each line with its place. Defined by this project.</summary>
public sealed class ChecklistTests
{
    [Fact]
    public async Task Checklist_OfTheEvent_TicksWhatIsDoneAndIsLoudAboutAnAddressThatNoPhoneOpens()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");

        var before = Items(await director.GetPage("/events/LANTERN"));
        await director.Added(Bench.Scale);
        using var good = await director.CheckScale("100 g");
        var page = await director.GetPage("/events/LANTERN");
        var after = Items(page);

        Assert.Equal(
            ["Rules", "Squads", "Entries", "List of approved balls", "Officials", "Instruments", "Tables", "Names", "Address in the codes",
                "Passcodes"],
            before.Keys);
        Assert.Equal((true, "Entries 24 bowlers are entered."), before["Entries"]);
        Assert.Equal((true, "Officials 2 people can sign in."), before["Officials"]);
        Assert.Equal((false, true), (before["Instruments"].IsDone, after["Instruments"].IsDone));
        Assert.False(after["Address in the codes"].IsDone);
        Assert.Contains("which no phone can open", page.QuerySelector(".alarm")!.TextContent, StringComparison.Ordinal);
        Assert.Contains(
            "which no phone can open", (await director.GetPage("/")).QuerySelector(".alarm")!.TextContent, StringComparison.Ordinal);
        Assert.Null((await inspector.GetPage("/events/LANTERN")).QuerySelector(".alarm, .checklist"));
        foreach (var link in page.QuerySelectorAll(".checklist a"))
        {
            using var there = await director.GetAsync(link.GetAttribute("href"));
            Assert.Equal(HttpStatusCode.OK, there.StatusCode);
        }
    }

    [Fact]
    public async Task Checklist_OnceABallIsRecorded_IsFoldedBehindTheTables()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        var before = await director.GetPage("/events/LANTERN");
        await director.Recorded(SampleSheets.Legal());
        var after = await director.GetPage("/events/LANTERN");

        Assert.True(Place(before).Details.HasAttribute("open"));
        Assert.False(Place(after).Details.HasAttribute("open"));
        Assert.True(Place(before).List < Place(before).Table);
        Assert.True(Place(after).List > Place(after).Table);

        static (IElement Details, int List, int Table) Place(IDocument page)
        {
            var cards = page.QuerySelectorAll("main h2").Select(head => head.Id ?? head.TextContent).ToList();
            return (page.QuerySelector(".checklist")!.ParentElement!, cards.IndexOf("checklist"), cards.IndexOf("at-table"));
        }
    }

    [Fact]
    public async Task Checklist_OfAnEmptyEventWithoutRules_SaysWhatIsMissing()
    {
        await using var station = new StationFixture();
        var checklist = station.Services.GetRequiredService<Checklist>();
        var lantern = station.Services.GetRequiredService<Events>().Find(DemoEvent.Id)!;

        var items = checklist.Of(lantern with { Authority = "nobody", Squads = [] }, 0, StationClock.Only.GetUtcNow());

        Assert.Equal(
            [("Rules", false), ("Squads", false), ("Entries", false)], items.Take(3).Select(item => (item.Title, item.IsDone)));
        Assert.Contains("\"nobody\" is not a body whose rules are on this station", items[0].Says, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Code_OpenedByAPhone_TicksItsLine()
    {
        await using var station = new StationFixture(settings: new() { ["public-url"] = "https://inspect.example.org" });
        using var director = await station.Client("director");
        using var phone = await station.Client();
        var test = station.Services.GetRequiredService<CodeTest>();

        var waiting = await director.GetPage("/codes");
        using var wrong = await phone.GetAsync("/codes/AAAAAAAAAA");
        var still = Items(await director.GetPage("/events/LANTERN"))["Address in the codes"];
        var opened = await phone.GetPage($"/codes/{test.Word}");
        var ticked = Items(await director.GetPage("/events/LANTERN"))["Address in the codes"];

        Assert.NotNull(waiting.QuerySelector("svg.code-picture"));
        Assert.Equal((HttpStatusCode.NotFound, false), (wrong.StatusCode, still.IsDone));
        Assert.Contains("This phone has opened", opened.Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal((true, "Address in the codes A phone has opened https://inspect.example.org."), ticked);
        Assert.Null((await director.GetPage("/codes")).QuerySelector("svg.code-picture"));
    }

    private static Dictionary<string, (bool IsDone, string Words)> Items(IDocument page) => page.QuerySelectorAll(".checklist li")
        .ToDictionary(item => item.QuerySelector("a")!.TextContent, item => (item.ClassList.Contains("done"), item.Children[1].Words()));
}
