using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Dapper;
using Inspect.Station.Decide;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Decide;

/// <summary>A ball that reads otherwise than its slip after the moment from which it may no longer be changed. The behaviour is
/// defined by this project; what instruments may differ by is held against the GUM in FrozenChangesTests.</summary>
public sealed class FreezeAlertTests
{
    private const string Weight =
        "Left or right 1.25 oz right now, 0.5 oz right on the slip: 0.75 oz apart. The event states no uncertainty; 0.5 oz is assumed.";

    private const string Hole = "Mill hole: 5/8 in wide, 1/8 in deep now, not on the slip.";

    [Fact]
    public async Task Changed_AfterTheFreeze_IsOpenUntilTheDirectorRules()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        await Freeze(director, "1440");
        await inspector.Recorded(SampleSheets.Legal());

        var number = await Again(inspector, "LANTERN-0001", Changed());

        Assert.Equal(OpenGroup.Changed, Assert.Single(Open(station)).Group);
        var ball = (await director.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!["ball"];
        foreach (var path in (string[])[
            "/desk/events/LANTERN/open", $"/inspections/{number}", $"/inspections/{number}/rule", $"/desk/balls/{ball}"])
        {
            var text = (await director.GetPage(path)).QuerySelector("main")!.Words();
            Assert.Contains(Weight, text, StringComparison.Ordinal);
            Assert.Contains(Hole, text, StringComparison.Ordinal);
        }

        Assert.Contains("1 ball waits for your decision", await Desk(), StringComparison.Ordinal);
        var record = (await director.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!;
        Assert.Equal("pass", record["verdict"]!["outcome"]!.GetValue<string>());

        using var ruled = await RulingSteps.Rule(director, number, "accept", "The first reading was a slip of the pen");
        Assert.Equal(HttpStatusCode.Created, ruled.StatusCode);
        Assert.Empty(Open(station));
        Assert.DoesNotContain("waits for your decision", await Desk(), StringComparison.Ordinal);
        Assert.Contains(
            Weight, (await director.GetPage($"/inspections/{number}")).QuerySelector("main")!.Words(), StringComparison.Ordinal);

        async Task<string> Desk() => (await director.GetPage("/desk")).QuerySelector("main")!.Words();
    }

    [Fact]
    public async Task Changed_AndRecordedAsABallNotSeenBefore_IsKnownByItsSerial()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        await Freeze(director, "1440");
        await inspector.Recorded(SampleSheets.Legal());
        var other = SampleSheets.Legal();
        other["ball"]!["serial"] = "7TT01884";
        other["weights"]!["leftRight"] = "1.25 oz";
        await inspector.Recorded(other);
        var same = Changed();
        same["ball"]!["serial"] = "9qf3l2o7";

        await inspector.Recorded(same);

        Assert.Equal(OpenGroup.Changed, Assert.Single(Open(station)).Group);
    }

    [Fact]
    public async Task WithinTheInstrumentsOrBeforeTheFreezeOrWithAnotherGrip_AlertsNobody()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");

        // No freeze is set: the ball may be changed.
        await inspector.Recorded(SampleSheets.Legal());
        var number = await Again(inspector, "LANTERN-0001", Changed());

        // From now on it may not, and it is as its last slip says, but for what a scale may be off.
        await Freeze(director, "1440");
        var close = Changed();
        close["weights"]!["leftRight"] = "1.5 oz";
        number = await Again(inspector, number, close);

        // With another grip the sides of the ball are others.
        var grip = SampleSheets.Legal();
        grip["grip"]!["hand"] = "left";
        await Again(inspector, number, grip);

        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        Assert.Equal(0, connection.ExecuteScalar<long>("SELECT count(*) FROM freeze_alert_index"));
    }

    private static JsonObject Changed()
    {
        var sheet = SampleSheets.Legal();
        sheet["weights"]!["leftRight"] = "1.25 oz";
        sheet["holes"]!.AsArray().Add(new JsonObject
        {
            ["kind"] = "mill",
            ["diameter"] = "5/8 in",
            ["depth"] = "1/8 in",
        });
        return sheet;
    }

    private static async Task<string> Again(HttpClient inspector, string supersedes, JsonObject sheet)
    {
        var request = SampleSheets.Request(sheet);
        request["supersedes"] = supersedes;
        using var recorded = await inspector.Record(request);
        Assert.True(recorded.StatusCode == HttpStatusCode.Created, await recorded.Content.ReadAsStringAsync());
        return (await recorded.Content.ReadFromJsonAsync<JsonObject>())!["number"]!.GetValue<string>();
    }

    private static async Task Freeze(HttpClient director, string minutes)
    {
        var page = await director.GetPage("/events/LANTERN/rules");
        using var set = await director.Send(
            page.QuerySelector<IHtmlFormElement>("form[action$='/rules/terms']")!, ("freezeMinutes", minutes));
        Assert.Equal(HttpStatusCode.Redirect, set.StatusCode);
    }

    private static IReadOnlyList<OpenItem> Open(StationFixture station)
    {
        var lists = station.Services.GetRequiredService<OpenLists>();
        return lists.Read(lists.Of(station.Services.GetRequiredService<Events>().Find("LANTERN")!).Places);
    }
}
