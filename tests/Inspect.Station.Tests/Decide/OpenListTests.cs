using Inspect.Station.Decide;
using Inspect.Station.Prepare;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using static Inspect.Station.Tests.Decide.RulingSteps;

namespace Inspect.Station.Tests.Decide;

/// <summary>The open list holds what is not settled, and nothing else. Common practice of officiating, no source.</summary>
public sealed class OpenListTests
{
    [Fact]
    public async Task OpenList_HoldsWhatIsNotSettledUntilItIs()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var passed = await inspector.Recorded(SampleSheets.Legal());
        var failed = (await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), "102"))["number"]!.GetValue<string>();
        var held = (await inspector.Recorded(Undecided(), "103"))["number"]!.GetValue<string>();
        var allowed = (await inspector.Recorded(Undecided(), "104"))["number"]!.GetValue<string>();
        using var allow = await Rule(director, allowed, "allow", "No tape here", "measured after the block");

        Assert.Equal($" |  | {allowed} |  | {held} | {failed}", Open());

        using var accepted = await Rule(director, held, "accept", "Known ball");
        var again = SampleSheets.Request(SampleSheets.Legal(), "104");
        again["supersedes"] = allowed;
        using var measured = await inspector.Record(again);
        using var withdrawn = await Rule(director, failed, "withdraw", "Wrong entry");
        using var appeal = await Rule(director, passed["number"]!.GetValue<string>(), "remeasure", "Drawn for a spot check");
        Assert.Equal($" |  |  | {passed["number"]} |  | ", Open());
        Assert.Contains(
            "Drawn for a spot check", (await director.GetPage("/desk/events/LANTERN/open")).QuerySelector("main")!.TextContent,
            StringComparison.Ordinal);

        string Open()
        {
            var lists = station.Services.GetRequiredService<OpenLists>();
            var items = lists.Read(lists.Of(station.Services.GetRequiredService<Events>().Find("LANTERN")!).Places);
            return string.Join(" | ", OpenGroup.All
                .Select(group => string.Join(' ', items.Where(item => item.Group == group).Select(item => item.Number))));
        }
    }

    [Fact]
    public async Task OpenList_ABallNobodyFoundOnTheList_AsksForTheListAndForNoMeasurement()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var sheet = SampleSheets.Legal();
        sheet["ball"]!["listed"] = "unknown";
        await inspector.Recorded(sheet);

        var text = (await director.GetPage("/desk/events/LANTERN/open")).QuerySelector(".open-list")!.TextContent;

        Assert.Contains("Approved list: Not decided: it is not known whether the ball is on the "
            + "list of approved balls.", text, StringComparison.Ordinal);
        Assert.Contains("Look the ball up on the list of approved balls.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("measure", text, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task OpenPage_NothingInspectedYet_SaysSoAndDoesNotSayThatAllWasPassed()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        var text = (await director.GetPage("/desk/events/LANTERN/open")).QuerySelector("main")!.TextContent;

        Assert.Contains("Nothing has been inspected at this event yet.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("passed", text, StringComparison.Ordinal);
    }
}
