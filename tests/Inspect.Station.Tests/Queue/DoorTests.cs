using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using static Inspect.Station.Tests.Queue.QueueSteps;

namespace Inspect.Station.Tests.Queue;

/// <summary>Marking bowlers in at the door. The behaviour is defined by this project.</summary>
public sealed class DoorTests
{
    [Fact]
    public async Task Door_NumberNameOrSlip_MarksInOnceAndSaysWhere()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var code = (await inspector.Recorded(SampleSheets.Legal(), "117"))["code"]!.GetValue<string>();

        // All of one squad: a squad that is near goes ahead, whatever the hour at which the test runs.
        foreach (var typed in (string[])["102", "renee aubercourt", code, "102"])
        {
            using var marked = await MarkIn(inspector, typed);
            Assert.Equal(HttpStatusCode.Redirect, marked.StatusCode);
        }

        var door = await inspector.GetPage("/events/LANTERN/door?entry=117");
        Assert.Equal("117 Noor van der Kiel is in: number 3 of 3.", door.QuerySelector(".marked")!.Words());
        Assert.Equal(["102", "108", "117"], Waiting(station));
    }

    [Fact]
    public async Task Door_SeveralOrNobody_ListsThemOrSaysWhoIsNearest()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");

        using var several = await MarkIn(inspector, "ma");
        var page = await several.Read();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, several.StatusCode);
        using var chosen = await inspector.Send(page.QuerySelectorAll<IHtmlFormElement>(".line-up form").Last());
        Assert.Equal("/events/LANTERN/door?entry=114", chosen.Headers.Location!.ToString());

        using var nobody = await MarkIn(inspector, "mirmebe");
        Assert.EndsWith("the nearest: 123 Mirembe.", (await nobody.Read()).FaultAt("bowler"), StringComparison.Ordinal);
        using var nothing = await MarkIn(inspector, "  ");
        Assert.Equal("Type an entry number or a name, or scan an entry card.", (await nothing.Read()).FaultAt("bowler"));
    }
}
