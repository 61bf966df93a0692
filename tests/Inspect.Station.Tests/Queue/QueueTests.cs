using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Access;
using Inspect.Station.Queue;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Measure;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using static Inspect.Station.Tests.Queue.QueueSteps;

namespace Inspect.Station.Tests.Queue;

/// <summary>From the call to the next bowler, on pages without script. The behaviour is defined by this project.</summary>
public sealed class QueueTests
{
    [Fact]
    public async Task Next_WithoutATable_AsksWhichOne()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await station.Services.GetRequiredService<Calls>().MarkIn(Lantern(station), "102");

        using var answer = await inspector.Send(
            Form(await inspector.GetPage("/events/LANTERN/queue"), "/queue/table"), ("table", new string('x', 21)));
        Assert.Equal("\"xxxxxxxxxxxxxxxxxxxxx\" cannot be the name of a table; give 1 to 20 characters, such as Table 2.", (
            await answer.Read()).FaultAt("table"));

        var page = await inspector.GetPage("/events/LANTERN/queue");
        Assert.Null(page.QuerySelector("form[action$='/queue/next']"));
        using var pressed = await inspector.PostAsync("/events/LANTERN/queue/next", Token(page, ("after", "0")));
        Assert.Equal("Say which table you work at; then the next bowler can be called to it.", (await pressed.Read()).FaultAt("table"));
        Assert.Equal(["102"], Waiting(station));
    }

    [Fact]
    public async Task Next_OneKeyAfterAnother_CallsInOrderAndFinishesWithWhoWasSeen()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await In(station, "103", "106", "109");
        await Open(inspector, "Table 1");

        Assert.Equal("/events/LANTERN/entries/103", await Press(inspector, "/events/LANTERN/queue"));
        await inspector.Recorded(SampleSheets.Legal(), "103");
        var entry = await inspector.GetPage("/events/LANTERN/entries/103");
        Assert.Equal("At Table 1.", entry.QuerySelector(".at-entry [role=status]")!.Words());
        Assert.Equal("Finishes with 103 and calls 106.", entry.QuerySelector(".next .hint")!.Words());
        Assert.Equal("n", entry.QuerySelector(".next button")!.GetAttribute("data-key"));

        // From the record as well, which is where one stands when the last ball is done.
        Assert.Equal("/events/LANTERN/entries/106", await Press(inspector, "/inspections/LANTERN-0001"));
        Assert.Equal(["109"], Waiting(station));
        Assert.Null(Now(station).Of("103"));
    }

    [Fact]
    public async Task Next_PressedTwice_CallsOneBowler()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await In(station, "103", "106", "109");
        await Open(inspector, "Table 1");
        var form = Form(await inspector.GetPage("/events/LANTERN/queue"), "/queue/next");

        var answers = await Task.WhenAll(Enumerable.Range(0, 5).Select(_ => inspector.Send(form)));

        Assert.All(answers, answer => Assert.Equal("/events/LANTERN/entries/103", answer.Headers.Location!.ToString()));
        Assert.Equal(["106", "109"], Waiting(station));
    }

    [Fact]
    public async Task Next_ManyTablesAtOneInstant_GetDifferentBowlers()
    {
        await using var station = new StationFixture();
        const int Tables = 8;
        await In(station, [.. Enumerable.Range(101, 12).Select(number => $"{number}")]);
        var clients = new List<HttpClient>();
        for (var i = 0; i < Tables; i++)
        {
            await station.Services.GetRequiredService<SignIns>().TryAdd($"Inspector {i}", $"table{i}", station.Passcode, Role.Inspector);
            clients.Add(await station.Client($"table{i}"));
            await Open(clients[i], $"Table {i + 1}");
        }

        var forms = await Task.WhenAll(
            clients.Select(async client => (client, form: Form(await client.GetPage("/events/LANTERN/queue"), "/queue/next"))));
        var answers = await Task.WhenAll(forms.SelectMany(each => new[] { each.client.Send(each.form), each.client.Send(each.form) }));

        var called = answers.Select(answer => answer.Headers.Location!.ToString()).Distinct().Order(StringComparer.Ordinal).ToList();
        Assert.Equal(Tables, called.Count);
        Assert.Equal(Tables, Now(station).AtTables.Select(place => place.Entry).Distinct().Count());
        Assert.Equal(Tables, Now(station).AtTables.Select(place => place.Table).Distinct().Count());
        Assert.Equal(12 - Tables, Waiting(station).Count);
        clients.ForEach(client => client.Dispose());
    }

    [Fact]
    public async Task Next_CalledAndNeverSeen_GoesBackToTheEndAndIsNotLost()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await In(station, "103", "106");
        await Open(inspector, "Table 1");

        Assert.Equal("/events/LANTERN/entries/103", await Press(inspector, "/events/LANTERN/queue"));
        Assert.Equal("/events/LANTERN/entries/106", await Press(inspector, "/events/LANTERN/entries/103"));
        Assert.Equal(["103"], Waiting(station));

        // 106 is said to be here; then finished with, and 103 is called again. Nobody else waits, so 103 stays called.
        using var here = await inspector.Send(
            Form(await inspector.GetPage("/events/LANTERN/entries/106"), "/queue/place"), ("act", "here"));
        Assert.Equal("/events/LANTERN/entries/106", here.Headers.Location!.ToString());
        Assert.Equal("/events/LANTERN/entries/103", await Press(inspector, "/events/LANTERN/entries/106"));
        Assert.Equal("/events/LANTERN/entries/103", await Press(inspector, "/events/LANTERN/entries/103"));
        Assert.Equal(PlaceState.Called, Now(station).Of("103")!.State);
    }

    [Fact]
    public async Task Take_OutOfOrder_CallsTheOneNamedAndNobodyAtAnotherTable()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        await In(station, "103", "106");
        await Open(inspector, "Table 1");
        await Open(director, "Table 2");

        using var taken = await inspector.Send(Form(await inspector.GetPage("/events/LANTERN/entries/106"), "/queue/take"));
        Assert.Equal("/events/LANTERN/entries/106", taken.Headers.Location!.ToString());
        using var again = await director.PostAsync(
            "/events/LANTERN/queue/take", Token(await director.GetPage("/events/LANTERN/queue"), ("entry", "106")));
        Assert.Equal("Entry 106 is at Table 1 already; nobody was called.", (await again.Read()).QuerySelector(".summary li")!.Words());

        // Somebody who was never marked in can be called too.
        using var walkedUp = await director.Send(Form(await director.GetPage("/events/LANTERN/entries/120"), "/queue/take"));
        Assert.Equal("Table 2", Now(station).Of("120")!.Table);
        Assert.Equal(["103"], Waiting(station));
    }

    [Fact]
    public async Task Recorded_WithoutACall_PutsTheBowlerAtTheInspectorsTable()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await In(station, "103", "106");
        await inspector.Recorded(SampleSheets.Legal(), "106");
        Assert.Equal(["103", "106"], Waiting(station));

        await Open(inspector, "Table 1");
        await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), "106");

        Assert.Equal((PlaceState.AtTable, "Table 1"), (Now(station).Of("106")!.State, Now(station).Of("106")!.Table));
    }

    [Fact]
    public async Task OpenTable_NameOfAnother_IsRefusedUntilThatOneIsClosed()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        await In(station, "103");
        await Open(inspector, "Table 1");
        Assert.Equal("/events/LANTERN/entries/103", await Press(inspector, "/events/LANTERN/queue"));

        using var taken = await director.Send(
            Form(await director.GetPage("/events/LANTERN/queue"), "/queue/table"), ("table", " table   1 "));
        Assert.Equal(
            "\"Table 1\" is open already, by Ida Morrowgate; give yours another name, or close that one below.",
            (await taken.Read()).FaultAt("table"));

        // Closing it gives its bowler back to the queue, where they stood.
        using var closed = await director.Send(Form(await director.GetPage("/events/LANTERN/queue"), "/queue/table/close"));
        Assert.Equal(["103"], Waiting(station));
        await Open(director, "Table 1");
        Assert.Equal("Hollis Vantreight", Assert.Single(Now(station).Tables).InspectorName);
    }

    [Fact]
    public async Task Left_FromTheQueue_IsGoneAndMayComeAgain()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await In(station, "103");

        using var left = await inspector.Send(Form(await inspector.GetPage("/events/LANTERN/queue"), "/queue/place"), ("act", "left"));

        Assert.Empty(Waiting(station));
        await In(station, "103");
        Assert.Equal(["103"], Waiting(station));
    }

    [Fact]
    public async Task Queue_AfterARestart_IsAsItWas()
    {
        var folder = StationFixture.NewFolder();
        await using (var station = new StationFixture(folder: folder))
        {
            using var inspector = await station.Client("inspector");
            await In(station, "103", "106", "109");
            await Open(inspector, "Table 1");
            await Press(inspector, "/events/LANTERN/queue");
        }

        await using (var again = new StationFixture(folder: folder))
        {
            Assert.Equal(["106", "109"], Waiting(again));
            Assert.Equal(("103", "Table 1"), (Now(again).AtTables[0].Entry, Now(again).AtTables[0].Table));
            Assert.Equal("Table 1", Assert.Single(Now(again).Tables).Name);
        }

        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Called_ASheetBegunAtThatTable_IsBeingThere()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        await In(station, "103", "106");
        await Open(inspector, "Table 1");
        await Press(inspector, "/events/LANTERN/queue");

        // Somebody else looks at the sheet, or types at another table: that says nothing about this one.
        await Begin(director, "Table 9");
        Assert.Equal(PlaceState.Called, Now(station).Of("103")!.State);
        Assert.Single((await director.GetPage("/events/LANTERN/wall")).QuerySelectorAll(".called .now"));

        await Begin(inspector, "");
        Assert.Equal(PlaceState.AtTable, Now(station).Of("103")!.State);
        var wall = await director.GetPage("/events/LANTERN/wall");
        Assert.Empty(wall.QuerySelectorAll(".called .now"));
        Assert.Equal("at Table 1", wall.QuerySelector(".called li span")!.TextContent);
        Assert.Equal("At the tables", wall.QuerySelector("#called")!.TextContent);
        Assert.Equal(["106"], Waiting(station));
    }

    [Fact]
    public async Task Called_ASheetBegunByAColleagueAtTheTableOfThatName_IsBeingThere()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        await In(station, "103");
        await Open(inspector, "Table 1");
        await Press(inspector, "/events/LANTERN/queue");

        await Begin(director, " table 1");

        Assert.Equal(PlaceState.AtTable, Now(station).Of("103")!.State);
    }

    [Fact]
    public async Task Measuring_WhoHasATableOpen_NamesItInTheSheet()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        Assert.Equal("", (await inspector.GetPage(TypedBall.Page)).QuerySelector<IHtmlInputElement>("[name=table]")!.Value);
        await Open(inspector, "Table 4");

        Assert.Equal("Table 4", (await inspector.GetPage(TypedBall.Page)).QuerySelector<IHtmlInputElement>("[name=table]")!.Value);
    }

    /// <summary>Types a ball's maker into a sheet of entry 103, as the page's script keeps it.</summary>
    private static async Task Begin(HttpClient client, string table)
    {
        var page = await client.GetPage(TypedBall.Page);
        var sent = page.QuerySelectorAll<IHtmlInputElement>("main form.table input[type=hidden]")
            .Select(field => KeyValuePair.Create(field.Name!, field.Value))
            .Append(KeyValuePair.Create("ball.maker", "Ostrava Kiln")).Append(KeyValuePair.Create("changed", "ball.maker"))
            .Append(KeyValuePair.Create("page", "one")).Append(KeyValuePair.Create("table", table));
        using var kept = await client.PostAsync(
            TypedBall.Page.Replace("new", "keep", StringComparison.Ordinal), new FormUrlEncodedContent(sent));
        Assert.Equal(HttpStatusCode.OK, kept.StatusCode);
    }
}
