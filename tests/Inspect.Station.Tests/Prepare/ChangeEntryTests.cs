using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Queue;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Prepare;

/// <summary>Entries are put right by the director on pages without script. The behaviour is defined by this project.</summary>
public sealed class ChangeEntryTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task Rename_ChangesTheNameEverywhereAndKeepsWhatWasRecordedVerifiable()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var recorded = await director.Recorded(SampleSheets.Legal());
        var people = station.Services.GetRequiredService<People>();
        var entry = Entry(station, "101");
        var hash = Hash(station, "LANTERN-0001");
        await QueueSteps.In(station, "101");

        using var answer = await director.Send(
            Form(await director.GetPage("/events/LANTERN/entries/101/change"), "/change"), ("name", "Aoife Brannock-Thornby"));

        Assert.Equal("/events/LANTERN/entries/101", answer.Headers.Location!.ToString());
        foreach (var path in (string[])[
            "/events/LANTERN", "/events/LANTERN/entries/101", "/events/LANTERN/queue", "/events/LANTERN/entries/101/balls/new",
            "/inspections/LANTERN-0001", "/desk?event=LANTERN", "/events/LANTERN/find?bowler=thornby+a",
            recorded["links"]!["scan"]!.GetValue<string>()])
        {
            using var page = await director.GetAsync(path);
            var text = page.StatusCode == HttpStatusCode.OK ? (await page.Read()).Body!.TextContent : page.Headers.Location!.ToString();
            Assert.DoesNotContain("Brannock-Thorne", path.StartsWith("/events/LANTERN/entries/101", StringComparison.Ordinal)
                || path == "/events/LANTERN" ? "" : text, StringComparison.Ordinal);
            Assert.True(
                path.StartsWith("/s/", StringComparison.Ordinal) || text.Contains("Thornby", StringComparison.Ordinal)
                || text == "/events/LANTERN/entries/101", path);
        }

        using var pdf = UglyToad.PdfPig.PdfDocument.Open(await director.GetByteArrayAsync(recorded["links"]!["slip"]!.GetValue<string>()));
        Assert.Contains("Thornby", string.Concat(pdf.GetPages().Select(page => page.Text)), StringComparison.Ordinal);

        // The register keeps the hash of the earlier name, and the change says what that was.
        Assert.Equal(hash, Hash(station, "LANTERN-0001"));
        Assert.Equal(hash, people.PseudonymOf(entry.Person, "Aoife Brannock-Thorne"));
        await director.Recorded(SampleSheets.Legal());
        Assert.Equal(people.PseudonymOf(entry.Person, "Aoife Brannock-Thornby"), Hash(station, "LANTERN-0002"));
        Assert.Contains(
            "Hollis Vantreight: name of the bowler: Aoife Brannock-Thorne → Aoife Brannock-Thornby",
            (await director.GetPage("/events/LANTERN/entries/101")).QuerySelector(".changes-made")!.Words(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Strike_OfAPerson_TakesEarlierNamesAndThoseOfMergedEntriesWithIt()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var renamed = await director.Send(
            Form(await director.GetPage("/events/LANTERN/entries/101/change"), "/change"), ("name", "Aoife Brannock-Thornby"));
        using var merged = await Merge(director, "101", "102", stays: "101");

        await station.Services.GetRequiredService<WriteGate>().Run(write => write.Connection.Execute(
            "UPDATE person SET name = NULL, salt = NULL WHERE id = @id", new { id = Entry(station, "101").Person.ToString() },
            write.Transaction));

        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        Assert.Equal(2, connection.ExecuteScalar<long>("SELECT count(*) FROM event_change WHERE what = 'name of the bowler'"));
        Assert.Equal(0, connection.ExecuteScalar<long>("SELECT count(*) FROM changed_name"));
        Assert.Equal(2, connection.ExecuteScalar<long>("SELECT count(*) FROM person WHERE name IS NULL AND salt IS NULL"));
        var page = await director.GetPage("/events/LANTERN/changes");
        Assert.DoesNotContain("Aoife", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("Wierzbosz", page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Changes_ThatWereMade_CannotBeChangedOrRemoved()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var moved = await director.Send(
            Form(await director.GetPage("/events/LANTERN/entries/101/change"), "/change"), ("squad", "C"));
        var gate = station.Services.GetRequiredService<WriteGate>();

        Assert.Equal("C", Entry(station, "101").Squad);
        foreach (var sql in (string[])["UPDATE event_change SET became = 'B'", "DELETE FROM event_change"])
        {
            await Assert.ThrowsAnyAsync<System.Data.Common.DbException>(
                () => gate.Run(write => write.Connection.Execute(sql, null, write.Transaction)));
        }
    }

    [Theory]
    [InlineData("name", "", "name", "\"\" cannot be a bowler's name; give one of 1 to 200 characters.")]
    [InlineData("squad", "Q", "squad", "There is no squad \"Q\" in Quillhaven Lantern Open; choose one from the list.")]
    public async Task Change_OneFault_SaysWhatWouldBeRight(string name, string typed, string field, string message)
    {
        using var director = await shared.Station.Client("director");

        using var answer = await director.Send(
            Form(await director.GetPage("/events/LANTERN/entries/104/change"), "/change"), (name, typed));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Equal(message, (await answer.Read()).FaultAt(field));
    }

    [Theory]
    [InlineData("", "Write the number of the other entry of this bowler.")]
    [InlineData("104", "\"104\" is this entry; write the number of the other one.")]
    [InlineData("999", "There is no entry \"999\" in Quillhaven Lantern Open.")]
    public async Task Merge_WithNoOther_SaysSo(string other, string message)
    {
        using var director = await shared.Station.Client("director");

        Assert.Equal(message, (await director.GetPage($"/events/LANTERN/entries/104/merge?other={other}")).FaultAt("other"));
    }

    [Fact]
    public async Task Withdrawn_IsRefusedAtDoorQueueAndFormAndComesBack()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Recorded(SampleSheets.Legal());
        var open = await director.GetPage("/events/LANTERN/entries/101/balls/new");
        await QueueSteps.In(station, "101", "102");
        await QueueSteps.Open(director, "Table 1");
        var take = await director.GetPage("/events/LANTERN/entries/101");
        const string Said = "Entry 101 is withdrawn, and no ball of it is measured; a director can bring it back.";

        using var withdrawn = await director.Send(Form(await director.GetPage("/events/LANTERN/entries/101/change"), "/withdraw"));

        Assert.Equal(["102"], QueueSteps.Waiting(station));
        var page = await director.GetPage("/events/LANTERN/entries/101");
        Assert.Contains(Said, page.QuerySelector("[role=status]")!.TextContent, StringComparison.Ordinal);
        Assert.Null(page.QuerySelector("a[href$='/balls/new']"));
        Assert.NotNull(page.QuerySelector("a[href='/inspections/LANTERN-0001']"));
        Assert.Equal("Aoife Brannock-Thorne", (await director.GetPage("/events/LANTERN")).QuerySelector("td s")!.TextContent);
        using var door = await QueueSteps.MarkIn(director, "101");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, door.StatusCode);
        Assert.Contains(Said, (await door.Read()).Body!.TextContent, StringComparison.Ordinal);
        using var called = await director.Send(Form(take, "/queue/take"));
        Assert.Contains(Said, (await called.Read()).Body!.TextContent, StringComparison.Ordinal);
        using var form = await director.GetAsync("/events/LANTERN/entries/101/balls/new");
        Assert.Equal(HttpStatusCode.Conflict, form.StatusCode);
        Assert.Contains(Said, (await form.Read()).Body!.TextContent, StringComparison.Ordinal);
        using var sent = await director.Send(open, ("act", "record"));
        Assert.Contains(Said, (await sent.Read()).Body!.TextContent, StringComparison.Ordinal);
        using var program = await director.Record(SampleSheets.Request(SampleSheets.Legal()));
        Assert.Equal(Said, await program.ProblemAt("entry"));
        Assert.Contains("LANTERN-0001", (await director.GetPage("/desk?event=LANTERN")).Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains("\"withdrawn\":true", await director.GetStringAsync("/api/events/LANTERN/entries"), StringComparison.Ordinal);

        using var back = await director.Send(Form(await director.GetPage("/events/LANTERN/entries/101/change"), "/back"));

        Assert.False(Entry(station, "101").IsWithdrawn);
        await director.Recorded(SampleSheets.Legal());
        var changes = (await director.GetPage("/events/LANTERN/entries/101")).QuerySelector(".changes-made")!.Words();
        Assert.Contains("Hollis Vantreight: brought back", changes, StringComparison.Ordinal);
        Assert.Contains("Hollis Vantreight: withdrawn", changes, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Merge_TwoEntriesOfOneBowler_ShowsTheInspectionsOfBothAndMeasuresOn()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await Cap(director);
        await director.Recorded(SampleSheets.Legal(), "101");
        var other = await director.Recorded(SampleSheets.TooHeavyOnTheLeft(), "102");
        await QueueSteps.In(station, "102");
        var begun = await director.GetPage("/events/LANTERN/entries/102/balls/new");
        using var aside = await director.Send(begun, ("weights.gross", "15-1"), ("act", "aside"));
        var side = await director.GetPage("/events/LANTERN/entries/101/merge?other=102");
        Assert.Equal(["101", "102"], side.QuerySelectorAll("tbody th").Select(cell => cell.TextContent));

        using var unchosen = await director.Send(side, ("stays", ""));
        Assert.Equal("Choose the number that stays, 101 or 102.", (await unchosen.Read()).FaultAt("stays"));
        using var merged = await Merge(director, "101", "102", stays: "101");

        Assert.Equal("/events/LANTERN/entries/101", merged.Headers.Location!.ToString());
        var kept = await director.GetPage("/events/LANTERN/entries/101");
        Assert.Equal(["LANTERN-0002", "LANTERN-0001"], kept.QuerySelectorAll("table.stacks th a").Select(cell => cell.TextContent));
        Assert.Contains("recorded under entry 102", kept.QuerySelector("table.stacks")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("merged into 101", (await director.GetPage("/events/LANTERN")).Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal("102", (await director.GetFromJsonAsync<JsonObject>("/api/inspections/LANTERN-0002"))!["entry"]!.GetValue<string>());
        Assert.Equal(["101"], QueueSteps.Waiting(station));
        Assert.Contains("Continue", kept.Body!.TextContent, StringComparison.Ordinal);
        using var gone = await director.GetAsync("/events/LANTERN/entries/102/balls/new?supersedes=LANTERN-0002");
        Assert.Equal("/events/LANTERN/entries/101/balls/new?supersedes=LANTERN-0002", gone.Headers.Location!.ToString());
        using var opened = await director.GetAsync(gone.Headers.Location);
        Assert.Equal(HttpStatusCode.OK, opened.StatusCode);

        // The name that stays is on the slip of a ball recorded under the other number, and the ball can be measured again.
        using var pdf = UglyToad.PdfPig.PdfDocument.Open(await director.GetByteArrayAsync(other["links"]!["slip"]!.GetValue<string>()));
        Assert.Contains("Brannock", string.Concat(pdf.GetPages().Select(page => page.Text)), StringComparison.Ordinal);
        var again = SampleSheets.Request(SampleSheets.Legal(), "101");
        again["supersedes"] = "LANTERN-0002";
        using var measured = await director.Record(again);
        Assert.Equal(HttpStatusCode.Created, measured.StatusCode);

        // Both balls count: a third one is over a cap of two.
        var third = await director.Recorded(SampleSheets.Legal(), "101");
        Assert.Contains("This is ball 3 of the bowler", third.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Merge_ThenBroughtBack_IsABowlerOfItsOwnAgain()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var (one, two) = (Entry(station, "101"), Entry(station, "102"));
        using var merged = await Merge(director, "101", "102", stays: "102");
        Assert.Equal(one with { Person = two.Person, Bowler = two.Bowler, IsWithdrawn = true, MergedInto = "102" }, Entry(station, "101"));
        using var further = await director.Send(
            Form(await director.GetPage("/events/LANTERN/entries/102/change"), "/change"), ("name", "Łucja Wierzbosch"));
        Assert.Equal("Łucja Wierzbosch", station.Services.GetRequiredService<People>().NameOf(one.Person));

        using var back = await director.Send(Form(await director.GetPage("/events/LANTERN/entries/101/change"), "/back"));

        Assert.Equal(one, Entry(station, "101"));
        Assert.Equal("Łucja Wierzbosch", Entry(station, "102").Bowler);
        Assert.Contains("101", (await director.GetPage("/events/LANTERN/find?bowler=a")).Body!.TextContent, StringComparison.Ordinal);
        using var found = await director.GetAsync("/events/LANTERN/find?bowler=aoife");
        Assert.Equal("/events/LANTERN/entries/101", found.Headers.Location!.ToString());
    }

    [Fact]
    public async Task Merge_TwiceOver_IsBroughtBackStepByStep()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        string[] numbers = ["101", "102", "103", "104"];
        var before = numbers.Select(number => Entry(station, number)).ToList();
        using var merged = await Merge(director, "101", "102", stays: "102");
        using var further = await Merge(director, "102", "103", stays: "103");
        using var furthest = await Merge(director, "103", "104", stays: "104");
        Assert.Equal(["104", "104", "104"], numbers.Take(3).Select(number => Entry(station, number).MergedInto));

        // The page of the first one names the step that comes before, and a press from an older page does nothing.
        var page = await director.GetPage("/events/LANTERN/entries/101/change");
        Assert.Contains("bring entry 102 back first", page.QuerySelector("main")!.Words(), StringComparison.Ordinal);
        Assert.Null(page.QuerySelector("form[action$='/back']"));
        var older = Form(await director.GetPage("/events/LANTERN/entries/103/change"), "/back");
        older.Action = "/events/LANTERN/entries/101/back";
        using var refused = await director.Send(older);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Equal("104", Entry(station, "101").MergedInto);

        await Back("103");
        Assert.Equal(
            (before[2], "103", "103"), (Entry(station, "103"), Entry(station, "102").MergedInto, Entry(station, "101").MergedInto));
        Assert.Equal(
            (before[2].Person, before[2].Bowler, before[2].Bowler),
            (Entry(station, "101").Person, Entry(station, "101").Bowler, Entry(station, "102").Bowler));
        await Back("102");
        Assert.Equal(
            (before[1], "102", before[1].Bowler), (Entry(station, "102"), Entry(station, "101").MergedInto, Entry(station, "101").Bowler));
        await Back("101");
        Assert.Equal(before, numbers.Select(number => Entry(station, number)));

        async Task Back(string number)
        {
            using var back = await director.Send(Form(await director.GetPage($"/events/LANTERN/entries/{number}/change"), "/back"));
            Assert.Equal($"/events/LANTERN/entries/{number}", back.Headers.Location!.ToString());
        }
    }

    [Fact]
    public async Task AddOne_WithoutANumber_TakesTheNextFreeOne()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var answer = await Add(director, ("name", "Odd Tarnmoor"), ("squad", "B"));
        using var taken = await Add(director, ("name", "Odd Tarnmoor"), ("number", "125"));

        Assert.Equal("/events/LANTERN/entries/125", answer.Headers.Location!.ToString());
        Assert.Equal(("Odd Tarnmoor", "B"), (Entry(station, "125").Bowler, Entry(station, "125").Squad));
        Assert.StartsWith(
            "Entry \"125\" is already in Quillhaven Lantern Open, for Odd Tarnmoor", (await taken.Read()).FaultAt("number"),
            StringComparison.Ordinal);
        Assert.Contains(
            "Hollis Vantreight: entered: squad B",
            (await director.GetPage("/events/LANTERN/entries/125")).QuerySelector(".changes-made")!.Words(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task AddOne_KnownFromAnotherEvent_AsksFirst()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await station.Services.GetRequiredService<WriteGate>().Run(write => Events.TryAdd(
            write, DemoEvent.On(StationClock.Today) with { Id = "AUTUMN", Squads = [] }));
        using var asked = await director.Send(
            Form(await director.GetPage("/events/AUTUMN"), "/events/AUTUMN/entries"), ("name", "mirembe"));
        var page = await asked.Read();
        Assert.Equal(HttpStatusCode.OK, asked.StatusCode);
        Assert.Contains("123 at Quillhaven Lantern Open, Mirembe", page.QuerySelector("#known")!.TextContent, StringComparison.Ordinal);

        using var answer = await director.Send(page);

        Assert.Equal("/events/AUTUMN/entries/1", answer.Headers.Location!.ToString());
        Assert.Equal(Entry(station, "123").Person, station.Services.GetRequiredService<Events>().FindEntry("AUTUMN", "1")!.Person);
    }

    private static async Task<HttpResponseMessage> Add(HttpClient director, params (string, string)[] answers) =>
        await director.Send(Form(await director.GetPage("/events/LANTERN"), "/events/LANTERN/entries"), answers);

    private static async Task<HttpResponseMessage> Merge(HttpClient director, string one, string other, string stays) =>
        await director.Send(Form(await director.GetPage($"/events/LANTERN/entries/{one}/merge?other={other}"), "/merge"), ("stays", stays));

    private static async Task Cap(HttpClient director)
    {
        using var supplement = await director.Send(
            Form(await director.GetPage("/events/LANTERN/rules"), "/rules/supplement"), ("supplement", EventRulesTests.Supplement));
        Assert.Equal(HttpStatusCode.Redirect, supplement.StatusCode);
    }

    private static Entry Entry(StationFixture station, string number) =>
        station.Services.GetRequiredService<Events>().FindEntry("LANTERN", number)!;

    private static IHtmlFormElement Form(IDocument page, string action) => page.QuerySelectorAll("main form[method=post]")
        .OfType<IHtmlFormElement>().Single(form => form.GetAttribute("action")!.EndsWith(action, StringComparison.Ordinal));

    private static string Hash(StationFixture station, string number)
    {
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        var body = connection.QuerySingle<byte[]>(
            "SELECT r.body FROM inspection_index i JOIN register_entry r ON r.seq = i.seq WHERE i.number = @number", new { number });
        return JsonNode.Parse(body)!["bowler"]!["name"]!.GetValue<string>();
    }
}
