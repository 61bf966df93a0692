using System.Net;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Desk;

/// <summary>An event judged again from the desk. A side weight of 1.5 oz without a balance hole passes since 1 August 2018 and failed
/// before: USBC, USBC Adjusts Timeline for New Bowling Ball Specifications, 16 June 2018.</summary>
public sealed class ReplayPageTests
{
    [Fact]
    public async Task Replay_UnderTheEditionBefore2018_NamesTheOneBallWhoseVerdictChanges()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Recorded(SampleSheets.Legal());
        var sheet = SampleSheets.Legal();
        sheet["weights"]!["leftRight"] = "1.5 oz";
        var heavy = await director.Recorded(sheet);

        var page = await director.GetPage("/desk/replay?event=LANTERN&edition=us-national/2014-05-07");
        var csv = await director.GetStringAsync("/desk/replay/changes.csv?event=LANTERN&edition=us-national/2014-05-07");
        var same = await director.GetPage("/desk/replay?event=LANTERN");

        Assert.Contains("2 judged again, one verdict would change", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal(heavy["number"]!.GetValue<string>(), page.QuerySelector("table.replayed tbody th")!.TextContent);
        Assert.Contains(heavy["number"]!.GetValue<string>(), csv, StringComparison.Ordinal);
        Assert.Contains("2 judged again, no verdict would change", same.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Replay_UnknownEditionOrFactor_IsSaidAtItsField()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var edition = await director.GetAsync("/desk/replay?event=LANTERN&edition=us-national/2014-05-08");
        using var factor = await director.GetAsync("/desk/replay?event=LANTERN&decision=guarded-acceptance&factor=much");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, edition.StatusCode);
        Assert.Contains("\"much\"", (await factor.Read()).FaultAt("factor")!, StringComparison.Ordinal);
        using var none = await director.GetAsync("/desk/replay?event=LANTERN&decision=guarded-rejection");
        Assert.StartsWith("A guarded rule needs a factor", (await none.Read()).FaultAt("factor")!.Replace(
            "Error: ", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }
}
