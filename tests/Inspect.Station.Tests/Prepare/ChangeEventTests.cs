using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Dapper;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Queue;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Prepare;

/// <summary>An event is put right, copied and deleted by its director on pages without script. The behaviour is defined by this
/// project.</summary>
public sealed class ChangeEventTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task Change_BeforeTheFirstInspection_CarriesEverythingUnderTheNewShortName()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await QueueSteps.In(station, "101");
        using var aside = await director.Send(
            await director.GetPage("/events/LANTERN/entries/106/balls/new"), ("weights.gross", "15-1"), ("act", "aside"));
        await station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            Station.Queue.EventTables.Set(write, "LANTERN", 4, showsNames: true);
            Station.Queue.EventTables.SetWall(write, "LANTERN", isOpen: true);
            Station.Instruments.CheckRule.Set(write, "LANTERN", new Station.Instruments.CheckRule(8, true));
            EventTerms.Set(write, "LANTERN", JudgingTerms.None, 30, new Dictionary<string, int> { ["gross-weight"] = 50 });
            return true;
        });
        var before = Rows(station, "LANTERN");
        var page = await director.GetPage("/events/LANTERN/change");
        Assert.Contains("can be changed until the first ball is recorded", page.Body!.TextContent, StringComparison.Ordinal);

        using var answer = await director.Send(
            Form(page), ("event", "harbour"), ("name", "Harbour Open"), ("timeZone", "Berlin"), ("officials", "one"),
            ("rules", "us-national/2020-08-01"), ("plan", "gross-weight"),
            ("squads[0].name", "B"), ("squads[1].name", "A"), ("squads[1].time", "2 pm"),
            ("squads[3].name", "D"), ("squads[3].time", "6:30 PM"));

        Assert.Equal("/events/HARBOUR", answer.Headers.Location!.ToString());
        var events = station.Services.GetRequiredService<Events>();
        var changed = events.Find("HARBOUR")!;
        Assert.Null(events.Find("LANTERN"));
        Assert.Equal(
            ("Harbour Open", "Europe/Berlin", "us-national/2020-08-01", true),
            (changed.Name, changed.TimeZone, changed.Edition, changed.HasSingleOfficial));
        Assert.Equal(["gross-weight"], changed.Plan!);
        Assert.Equal(before with { Squads = before.Squads + 1 }, Rows(station, "HARBOUR"));
        Assert.Equal(Rows(station, "NOWHERE"), Rows(station, "LANTERN"));

        // The first two squads took each other's names, and each entry went with its own.
        Assert.Equal("B", events.FindEntry("HARBOUR", "101")!.Squad);
        Assert.Equal("A", events.FindEntry("HARBOUR", "102")!.Squad);
        Assert.Equal(24, events.EntriesOf("HARBOUR").Count);
        Assert.NotNull((await director.GetPage("/events/HARBOUR")).QuerySelector("a[href='/events/HARBOUR/changes']"));
        var all = (await director.GetPage("/events/HARBOUR/changes")).QuerySelector(".changes-made")!.Words();
        Assert.Contains("Hollis Vantreight: short name: LANTERN → HARBOUR", all, StringComparison.Ordinal);
        Assert.Contains("name: Quillhaven Lantern Open → Harbour Open", all, StringComparison.Ordinal);
        Assert.Contains("officials: Inspectors measure, the director rules → One person does both", all, StringComparison.Ordinal);
        Assert.Contains("name of a squad: A → B", all, StringComparison.Ordinal);
        Assert.Contains("squad D added: ", all, StringComparison.Ordinal);
        using var recorded = await director.Record(Request("HARBOUR"));
        Assert.Equal(HttpStatusCode.Created, recorded.StatusCode);
    }

    [Fact]
    public async Task Change_AfterTheFirstInspection_KeepsShortNameRulesAndItsDay()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var open = await director.GetPage("/events/LANTERN/change");
        await director.Recorded(SampleSheets.Legal());
        var locked = await director.GetPage("/events/LANTERN/change");

        Assert.Null(locked.QuerySelector("#event"));
        Assert.Null(locked.QuerySelector("#rules"));
        Assert.Contains(
            "1 inspection is recorded in this event, so the short name stays", locked.Body!.TextContent, StringComparison.Ordinal);

        // A page that was opened before says it as well, and changes nothing.
        using var late = await director.Send(
            Form(open), ("event", "HARBOUR"), ("rules", "us-national/2020-08-01"), ("name", "Harbour Open"));
        Assert.Equal("/events/LANTERN", late.Headers.Location!.ToString());
        var held = station.Services.GetRequiredService<Events>().Find("LANTERN")!;
        Assert.Equal(("Harbour Open", null), (held.Name, held.Edition));

        var tomorrow = StationClock.Today.AddDays(1).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
        using var cut = await director.Send(
            Form(await director.GetPage("/events/LANTERN/change")), ("from", tomorrow), ("squads[0].day", tomorrow),
            ("squads[1].day", tomorrow));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, cut.StatusCode);
        Assert.Equal(
            $"1 inspection is recorded for {EventWords.Day(StationClock.Today)}; keep that day in the event.",
            (await cut.Read()).FaultAt("from"));
    }

    [Fact]
    public async Task Officials_Changed_HoldFromThenOn()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Recorded(SampleSheets.TooHeavyOnTheLeft());
        var own = await director.GetPage("/inspections/LANTERN-0001/rule");
        Assert.NotNull(own.QuerySelector("main a[href='/events/LANTERN/change#officials']"));

        using var answer = await director.Send(Form(await director.GetPage("/events/LANTERN/change")), ("officials", "one"));

        Assert.NotNull((await director.GetPage("/inspections/LANTERN-0001/rule")).QuerySelector("main form [name=decision]"));
    }

    [Theory]
    [InlineData("squads[0].gone", "yes", "squads-0--gone", "Squad \"A\" has 8 entries; move them to another squad before you remove it.")]
    [InlineData("squads[0].name", "", "squads-0--name", "\"\" cannot be the name of a squad; give 1 to 40 characters, such as A, "
        + "or tick Remove if there is no squad A any more.")]
    [InlineData("name", "", "name", "Give the name in full as it is to appear on slips, at most 200 characters.")]
    [InlineData("rules", "nowhere", "rules", "\"nowhere\" is not a body whose rules are on this station; choose one of ")]
    public async Task Change_OneFault_SaysWhatWouldBeRight(string name, string typed, string field, string message)
    {
        using var director = await shared.Station.Client("director");

        using var answer = await director.Send(Form(await director.GetPage("/events/LANTERN/change")), (name, typed));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.StartsWith(message, (await answer.Read()).FaultAt(field), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Change_ByTwoDirectorsAtOnce_AsksTheSecondOne()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var page = await director.GetPage("/events/LANTERN/change");
        using var first = await director.Send(Form(page), ("name", "Harbour Open"));

        using var second = await director.Send(Form(page), ("name", "Hafen Open"));
        var said = await second.Read();

        Assert.Equal(HttpStatusCode.UnprocessableEntity, second.StatusCode);
        Assert.Contains("Somebody changed this event", said.QuerySelector(".summary")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("Harbour Open", station.Services.GetRequiredService<Events>().Find("LANTERN")!.Name);
        using var again = await director.Send(Form(said));
        Assert.Equal("Hafen Open", station.Services.GetRequiredService<Events>().Find("LANTERN")!.Name);
    }

    [Fact]
    public async Task Change_SquadWithoutEntries_IsRemoved()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var added = await director.Send(
            Form(await director.GetPage("/events/LANTERN/change")), ("squads[3].name", "D"), ("squads[3].time", "14:00"));
        var page = await director.GetPage("/events/LANTERN/change");
        var row = page.QuerySelectorAll(".squad [name$='.was']").Index().Single(each => each.Item.GetAttribute("value") == "D").Index;

        using var gone = await director.Send(Form(page), ($"squads[{row}].gone", "yes"));

        Assert.Equal("/events/LANTERN", gone.Headers.Location!.ToString());
        Assert.Equal(["A", "B", "C"], station.Services.GetRequiredService<Events>().Find("LANTERN")!.Squads.Select(squad => squad.Name));
    }

    [Fact]
    public async Task AddARow_WithoutScript_KeepsWhatWasTyped()
    {
        using var director = await shared.Station.Client("director");

        using var answer = await director.Send(
            Form(await director.GetPage("/events/new")), ("name", "Spring Open"), ("squads[0].name", "A"), ("act", "row"));
        var page = await answer.Read();

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(2, page.QuerySelectorAll(".squad").Length);
        Assert.Equal("Spring Open", page.QuerySelector<IHtmlInputElement>("#name")!.Value);
        Assert.Equal("A", page.QuerySelector<IHtmlInputElement>("#squads-0--name")!.Value);
    }

    [Fact]
    public async Task Copy_OfLastYearsEvent_MovesDaysAndSquadsAndTakesItsOwnRules()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var supplement = await director.Send(
            QueueSteps.Form(await director.GetPage("/events/LANTERN/rules"), "/rules/supplement"),
            ("supplement", EventRulesTests.Supplement));
        Assert.Equal(HttpStatusCode.Redirect, supplement.StatusCode);
        await station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            Station.Queue.EventTables.Set(write, "LANTERN", 4, showsNames: true);
            EventTerms.Set(write, "LANTERN", JudgingTerms.None, 30, new Dictionary<string, int> { ["gross-weight"] = 50 });
            return true;
        });
        var asks = await director.GetPage("/events/new?copy=LANTERN");
        var offered = asks.QuerySelector<IHtmlInputElement>("#from")!.Value;
        var filled = await director.GetPage($"/events/new?copy=LANTERN&from={offered}");

        using var answer = await director.Send(Form(filled));

        var events = station.Services.GetRequiredService<Events>();
        var (last, next) = (events.Find("LANTERN")!, events.Find(answer.Headers.Location!.ToString()["/events/".Length..])!);
        Assert.Equal((last.Name, last.TimeZone, last.Authority), (next.Name, next.TimeZone, next.Authority));
        Assert.Equal($"QUILLHAVE{last.From.AddDays(364):yy}", next.Id);
        Assert.Equal(last.From.AddDays(364), next.From);
        Assert.Equal(last.From.DayOfWeek, next.From.DayOfWeek);
        Assert.Equal(last.Squads.Select(squad => squad with { Starts = squad.Starts.AddDays(364) }), next.Squads);
        Assert.Empty(events.EntriesOf(next.Id));
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        var (was, terms) = (EventTerms.Of(connection, "LANTERN"), EventTerms.Of(connection, next.Id));
        Assert.Equal((30, 50), (terms.FreezeMinutes, terms.Shares["gross-weight"]));
        Assert.Equal(was.Judging.Supplements.Select(each => each.Sha256), terms.Judging.Supplements.Select(each => each.Sha256));
        Assert.NotEmpty(terms.Judging.Supplements);
        Assert.NotEqual(was.DrawSalt, terms.DrawSalt);
        Assert.Equal(4, station.Services.GetRequiredService<Station.Queue.EventTables>().Of(next.Id).MostBalls);
    }

    [Fact]
    public async Task Copy_SupplementOfAnotherBody_IsLeftOutAndNamed()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var supplement = await director.Send(
            QueueSteps.Form(await director.GetPage("/events/LANTERN/rules"), "/rules/supplement"),
            ("supplement", EventRulesTests.Supplement));
        var library = station.Services.GetRequiredService<EditionLibrary>();
        var edition = library.Of(library.Authorities.First(each => each != "us-national"))[^1].Id;

        using var answer = await director.Send(
            Form(await director.GetPage("/events/new?copy=LANTERN&from=2027-11-26")), ("rules", edition), ("event", "OTHER"));

        Assert.Equal("/events/OTHER", answer.Headers.Location!.ToString());
        Assert.Contains(
            "cannot be used with", (await director.GetPage("/events/OTHER")).QuerySelector(".changes-made")!.Words(),
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task Delete_EventThatWasNeverUsed_GoesWithItsEntriesAndTheirNames()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await QueueSteps.In(station, "101");
        var page = await director.GetPage("/events/LANTERN/delete");
        Assert.Contains("24 entries, 3 squads", page.Body!.TextContent, StringComparison.Ordinal);
        using var one = await director.Send(
            QueueSteps.Form(await director.GetPage("/events/LANTERN"), "/events/LANTERN/entries"), ("name", "Mirembe"));

        // Another bowler came in meanwhile: what goes is shown again.
        using var stale = await director.Send(page);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, stale.StatusCode);
        Assert.Contains("now has 25 entries", (await stale.Read()).QuerySelector(".summary")!.TextContent, StringComparison.Ordinal);
        using var answer = await director.Send(await director.GetPage("/events/LANTERN/delete"));

        Assert.Equal("/events", answer.Headers.Location!.ToString());
        Assert.Contains(
            "Quillhaven Lantern Open (LANTERN), by Hollis Vantreight", (await director.GetPage("/events")).Body!.TextContent,
            StringComparison.Ordinal);
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        Assert.Equal(Rows(station, "NOWHERE"), Rows(station, "LANTERN"));
        Assert.Equal(0, connection.ExecuteScalar<long>("SELECT count(*) FROM person WHERE id NOT IN (SELECT person FROM sign_in)"));
    }

    [Fact]
    public async Task Delete_EventWithAnInspection_IsRefused()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var page = await director.GetPage("/events/LANTERN/delete");
        await director.Recorded(SampleSheets.Legal());

        using var answer = await director.Send(page);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(
            "1 inspection is recorded in this event, so the event cannot be deleted.", (await answer.Read()).Body!.TextContent,
            StringComparison.Ordinal);
        Assert.Equal(24, station.Services.GetRequiredService<Events>().EntriesOf("LANTERN").Count);
    }

    [Fact]
    public async Task ShortName_NamedInTheRegisterOtherwise_Stays()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            var confirmation = new Confirmation("hardness", "at least 72", Person(write), StationClock.Today, "Manual");
            EventTerms.Confirm(write, "LANTERN", confirmation, StationClock.Only.GetUtcNow());
            return true;
        });

        var page = await director.GetPage("/events/LANTERN/change");

        Assert.Null(page.QuerySelector("#event"));
        Assert.NotNull(page.QuerySelector("#rules"));
        Assert.Contains("the short name stays as it is", page.Body!.TextContent, StringComparison.Ordinal);

        static string Person(WriteTransaction write) => write.Connection.QueryFirst<string>(
            "SELECT person FROM sign_in WHERE name = 'director'", null, write.Transaction);
    }

    /// <summary>Every table that refers to an event or an entry is named where events are renamed and deleted.</summary>
    [Fact]
    public void Tables_OfEvents_AreAllThatReferToOne()
    {
        using var connection = shared.Station.Services.GetRequiredService<Database>().OpenForReading();
        var referring = connection.Query<string>(
            """
            SELECT DISTINCT t.name FROM sqlite_schema t JOIN pragma_foreign_key_list(t.name) f WHERE t.type = 'table' AND f."table" IN ('event', 'entry')
            """);

        Assert.Equal(referring.Append("event").Order(), EventCorrections.Tables.Order());
    }

    [Theory]
    [InlineData("/events/LANTERN/change")]
    [InlineData("/events/LANTERN/delete")]
    [InlineData("/events/LANTERN/entries/101/change")]
    [InlineData("/events/LANTERN/entries/101/merge?other=102")]
    public async Task Get_AsInspector_IsRefused(string path)
    {
        using var inspector = await shared.Station.Client("inspector");

        Assert.Equal(HttpStatusCode.Forbidden, (await inspector.GetAsync(path)).StatusCode);
        Assert.Null((await inspector.GetPage("/events/LANTERN/entries/101")).QuerySelector($"a[href='{path}']"));
    }

    [Theory]
    [InlineData("find=12", "120 121 122 123 124")]
    [InlineData("find=tom ib", "103")]
    [InlineData("find=nobody", "")]
    public async Task EventPage_Find_ListsTheEntriesThatFit(string asked, string numbers)
    {
        using var inspector = await shared.Station.Client("inspector");

        var page = await inspector.GetPage($"/events/LANTERN?{asked}");

        Assert.Equal(numbers, string.Join(' ', page.QuerySelectorAll("tbody th a").Select(cell => cell.TextContent)));
        var squad = await inspector.GetPage("/events/LANTERN?find=b");
        Assert.Contains("102", squad.QuerySelectorAll("tbody th a").Select(cell => cell.TextContent));
    }

    [Fact]
    public async Task EventPage_FindInALongList_LeadsOnThroughItsPages()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await station.Services.GetRequiredService<WriteGate>().Run(write => Events.TryEnter(
            write, "LANTERN", [.. Enumerable.Range(1000, 150).Select(number => new NewEntry($"{number}", "Odd Tarnmoor", null))]));

        var first = await inspector.GetPage("/events/LANTERN?find=tarn");
        var second = await inspector.GetPage(first.QuerySelector("a[rel=next]")!.GetAttribute("href")!);

        Assert.Equal("1100", second.QuerySelector("tbody th a[href*='/entries/']")!.TextContent);
        Assert.Equal(50, second.QuerySelectorAll("tbody th a[href*='/entries/']").Length);
    }

    private static IHtmlFormElement Form(IDocument page) => page.QuerySelector<IHtmlFormElement>("main form.event")!;

    private static System.Text.Json.Nodes.JsonObject Request(string eventId)
    {
        var request = SampleSheets.Request(SampleSheets.Legal());
        request["event"] = eventId;
        return request;
    }

    private static EventRows Rows(StationFixture station, string eventId)
    {
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        return new EventRows(
            Count("squad"), Count("entry"), Count("queue_place"), Count("unfinished_sheet"), Count("event_terms"), Count("event_check"),
            Count("event_table"));

        long Count(string table) => connection.ExecuteScalar<long>($"SELECT count(*) FROM {table} WHERE event = @eventId", new { eventId });
    }

    private sealed record EventRows(long Squads, long Entries, long Places, long Sheets, long Terms, long Checks, long Tables);
}
