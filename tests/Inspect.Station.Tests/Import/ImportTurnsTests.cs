using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Import;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.CommandLine;
using Inspect.Station.Tests.Ground;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Import;

/// <summary>A long list is entered in turns at the gate, and counts as a whole or not at all. The behaviour is defined by this
/// project.</summary>
public sealed class ImportTurnsTests
{
    private const int Many = 1200;

    [Fact]
    public async Task EnterSome_RunsSixStatementsForATurnOfBowlers()
    {
        await using var station = new StationFixture();
        var (into, chosen) = await Chosen(station, Many);
        var import = await Gate(station).Run(write => EntryImport.Begin(write, StationClock.Only.GetUtcNow()));

        var (some, runs) = await Gate(station).Run(write =>
        {
            var before = ((KeptStatements)write.Connection).Runs;
            var entered = EntryImport.EnterSome(write, into, import, chosen.Entries, 0)!.Value;
            return (entered, ((KeptStatements)write.Connection).Runs - before);
        });

        // The event, its squads, the numbers that are taken; then the people, their words and their entries.
        Assert.Equal((EntryImport.MostInATurn, 6), (some, runs));
    }

    [Fact]
    public async Task List_WhileItIsEntered_LetsOthersInBetweenAndDoesNotCount()
    {
        await using var station = new StationFixture();
        var (into, chosen) = await Chosen(station, Many);
        var run = Run(station, into, chosen);
        var turns = Gate(station).Changes;
        Assert.True(station.Services.GetRequiredService<ImportRuns>().TryStart(run));

        while (!run.Ended.IsCompleted)
        {
            // A turn of a recording is none of those that are counted below.
            var written = await Gate(station).Run(
                write => write.Connection.ExecuteScalar<long>(
                    "SELECT count(*) FROM entry WHERE import IS NOT NULL", null, write.Transaction),
                isRecording: true);
            if (written is > 0 and < Many)
            {
                Assert.Empty(station.Entries("LONG"));
                Assert.Null(station.Services.GetRequiredService<Events>().FindEntry("LONG", "1"));
                Assert.Empty(station.Services.GetRequiredService<KnownBowlers>().Of("LANTERN", ["Oriel Many1"]).Of("Oriel Many1"));
            }
        }

        // Others wait for one short turn, not for the whole list.
        Assert.InRange(Gate(station).Changes - turns, Many / EntryImport.MostInATurn, Many);
        Assert.Equal(Many, station.Entries("LONG").Count);
        Assert.Equal(1, Scalar(station, "SELECT count(*) FROM event_change WHERE event = 'LONG'"));
    }

    [Fact]
    public async Task Stop_WhileItIsEntered_LeavesNothingOfIt()
    {
        await using var station = new StationFixture();
        var (into, chosen) = await Chosen(station, Many);
        var before = Rows(station);
        var run = Run(station, into, chosen);
        Assert.True(station.Services.GetRequiredService<ImportRuns>().TryStart(run));
        Assert.False(station.Services.GetRequiredService<ImportRuns>().TryStart(Run(station, into, chosen)));
        while (run.Written == 0)
        {
            await Task.Yield();
        }

        run.Stop();
        await run.Ended;

        Assert.InRange(run.Written, 1, Many - 1);
        Assert.Equal(before, Rows(station));
        Assert.Null(station.Services.GetRequiredService<ImportRuns>().Of("LONG"));
    }

    [Theory]
    [InlineData("7", true)]
    [InlineData("999", true)]
    [InlineData("a5", true)]
    [InlineData("5000", false)]
    public async Task Number_TakenMeanwhile_UndoesAllOfIt(string taken, bool isUndone)
    {
        await using var station = new StationFixture();
        var (into, chosen) = await Chosen(station, Many, "A5");
        var run = Run(station, into, chosen);
        using var hold = new ManualResetEventSlim();
        var held = Gate(station).Run(write => Wait(hold));
        Assert.True(station.Services.GetRequiredService<ImportRuns>().TryStart(run));
        var entered = Gate(station).Run(write => Events.TryEnter(write, "LONG", [new NewEntry(taken, "Idris Fern", null)]));
        hold.Set();
        await held;
        Assert.True(await entered);
        await run.Ended;

        Assert.Equal(isUndone ? 1 : Many + 2, station.Entries("LONG").Count);
        Assert.Equal(isUndone ? 0 : 1, Scalar(station, "SELECT count(*) FROM entry_import"));
        Assert.Equal(isUndone ? 0 : 1, Scalar(station, "SELECT count(*) FROM person WHERE name = 'Oriel Many3'"));
    }

    [Fact]
    public async Task Squads_ChangedMeanwhile_UndoAllOfIt()
    {
        await using var station = new StationFixture();
        var (into, chosen) = await Chosen(station, Many);
        var run = Run(station, into with { Squads = [] }, chosen);
        Assert.True(station.Services.GetRequiredService<ImportRuns>().TryStart(run));
        await run.Ended;

        Assert.Empty(station.Entries("LONG"));
        Assert.Equal(0, Scalar(station, "SELECT count(*) FROM entry_import"));
    }

    [Fact]
    public async Task Person_KnownFromAnotherEvent_StaysWhenTheListIsTakenBack()
    {
        await using var station = new StationFixture();
        var (into, chosen) = await Chosen(station, 3);
        var known = station.Services.GetRequiredService<Events>().FindEntry("LANTERN", "101")!;
        chosen = chosen with { Entries = [.. chosen.Entries, new NewEntry("900", known.Bowler!, null, known.Person)] };
        var before = Rows(station);
        var import = await Gate(station).Run(write => EntryImport.Begin(write, StationClock.Only.GetUtcNow()));
        Assert.Equal(4, await Gate(station).Run(write => EntryImport.EnterSome(write, into, import, chosen.Entries, 0)));

        await station.Services.GetRequiredService<EntryImport>().ClearLeft();

        Assert.Equal(before, Rows(station));
        Assert.Equal(known, station.Services.GetRequiredService<Events>().FindEntry("LANTERN", "101"));
    }

    [Fact]
    public async Task StationKilledBetweenTurns_HasNothingOfTheListWhenItStartsAgain()
    {
        const string Passcode = "lantern tarn 4";
        const int Rows = 12_000;
        var folder = StationFixture.NewFolder();
        try
        {
            var store = new Database(Path.Combine(folder, "inspect.db"), keepsOpen: false);
            var list = List(Rows, first: 1001);
            using (var station = StationProcess.Start(["--demo", "--data", folder, "--urls", "http://127.0.0.1:0"], Passcode))
            {
                using var director = await SignedIn(station, Passcode);
                var page = await director.Paste(list);
                var sent = director.Send(ImportSteps.Form(page));
                while (Left(store) is 0)
                {
                    await Task.Yield();
                }

                station.KillHard();
                await station.Ended();
                await Assert.ThrowsAnyAsync<HttpRequestException>(() => sent);
            }

            Assert.InRange(Left(store), 1, Rows - 1);
            using (var again = StationProcess.Start(["--demo", "--data", folder, "--urls", "http://127.0.0.1:0"], Passcode))
            {
                using var director = await SignedIn(again, Passcode);
                Assert.Equal(0, Left(store));
                using (var reading = store.OpenForReading())
                {
                    Assert.Equal(0, reading.ExecuteScalar<long>("SELECT count(*) FROM person WHERE name LIKE 'Oriel Many%'"));
                    Assert.Equal(0, reading.ExecuteScalar<long>("SELECT count(*) FROM entry_import"));
                }

                var page = await director.Paste(list);
                Assert.Equal((Rows, 0, 0, 0, 0), page.Counts());
                using var sent = await director.Send(ImportSteps.Form(page));
                await Until(director, sent.Headers.Location!.ToString());
                page = await director.Paste(list);
                Assert.Equal((0, 0, Rows, 0, 0), page.Counts());
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task Pages_OfALongList_SayHowFarItIsAndStopIt()
    {
        await using var station = new StationFixture();
        await station.Hold("LONG");
        using var director = await station.Client("director");
        var page = await director.Paste(List(Many), "LONG");
        using var hold = new ManualResetEventSlim();
        var held = Gate(station).Run(write => Wait(hold));

        using var begun = await director.Send(ImportSteps.Form(page));
        var progress = begun.Headers.Location!.ToString();
        Assert.StartsWith("/events/LONG/entries/add/progress?list=", progress, StringComparison.Ordinal);
        var far = await director.GetPage(progress);
        Assert.Equal(["1,200", "0 of 1,200"], far.QuerySelectorAll(".progress dd").Select(each => each.TextContent));
        Assert.Contains("http-equiv", far.QuerySelector("head noscript")!.InnerHtml, StringComparison.Ordinal);

        // Every way to the list leads here meanwhile, and another director sees it too.
        using var key = await director.GetAsync(page.QuerySelector<IHtmlFormElement>("form:has([name=seen])")!.GetAttribute("action"));
        Assert.Equal(progress, key.Headers.Location!.ToString());
        var start = await director.GetPage("/events/LONG/entries/add");
        Assert.Contains("A list is being entered now.", start.Body!.TextContent, StringComparison.Ordinal);
        using var other = await station.Client("director");
        using var second = await director.Send(ImportSteps.Form(page));
        Assert.Contains("Another list is being entered into this event", (await second.Read()).QuerySelector(".summary")!.TextContent,
            StringComparison.Ordinal);
        using var stop = await other.Send(await other.GetPage("/events/LONG/entries/add/progress"));
        Assert.Contains("It is being stopped.", (await director.GetPage(progress)).Body!.TextContent, StringComparison.Ordinal);
        hold.Set();
        await held;

        var after = await Until(director, progress);
        Assert.Equal("Stopped: nothing of the list was done.", after.QuerySelector("[role=status]")!.Words());
        Assert.Equal((Many, 0, 0, 0, 0), after.Counts());
        Assert.Empty(station.Entries("LONG"));

        // The same list goes in the next time.
        using var again = await director.Send(ImportSteps.Form(after));
        after = await Until(director, again.Headers.Location!.ToString());
        Assert.StartsWith("1,200 entries were added.", after.QuerySelector("[role=status]")!.Words(), StringComparison.Ordinal);
        using var over = await director.GetAsync("/events/LONG/entries/add/progress");
        Assert.Equal("/events/LONG#entries", over.Headers.Location!.ToString());
    }

    [Fact]
    public async Task Pages_OfALongList_ShowAHundredRowsAtATimeAndFindOne()
    {
        await using var station = new StationFixture();
        await station.Hold("LONG");
        using var director = await station.Client("director");
        var page = await director.Paste(List(Many), "LONG");

        Assert.Equal((Many, 0, 0, 0, 0), page.Counts());
        Assert.Equal(100, page.QuerySelectorAll("[aria-labelledby=added] tbody tr").Length);
        var path = page.QuerySelector("a[href$=rows]")!.GetAttribute("href")!;
        var last = await director.GetPage($"{path}?page=12");
        Assert.Equal(["Row 1102", "Row 1201"], Of(last).Where((_, i) => i is 0 or 99));
        Assert.Equal(["Row 778"], Of(await director.GetPage($"{path}?find=777")));
        Assert.Equal(["Row 778"], Of(await director.GetPage($"{path}?find=many777+or")));
        using var none = await director.GetAsync($"{path}?page=13");
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);

        static IEnumerable<string> Of(IDocument page) => page.QuerySelectorAll("tbody th").Select(each => each.TextContent);
    }

    [Fact]
    public async Task Changes_OfMoreThanATurnTakes_AreDoneInParts()
    {
        await using var station = new StationFixture();
        await station.Hold("LONG");
        using var director = await station.Client("director");
        using var begun = await director.Send(ImportSteps.Form(await director.Paste(List(Many), "LONG")));
        await Until(director, begun.Headers.Location!.ToString());

        var moved = await director.Paste(List(Many).Replace(",A\n", ",B\n", StringComparison.Ordinal), "LONG");
        Assert.Equal((0, Many, 0, 0, 0), moved.Counts());
        Assert.Contains("The first 500 of them", moved.Body!.TextContent, StringComparison.Ordinal);
        using var sent = await director.Send(ImportSteps.Form(moved), ("changed.all", "1"));

        Assert.Equal((0, Many - 500, 500, 0, 0), (await Until(director, sent.Headers.Location!.ToString())).Counts());
    }

    private static string List(int many, int first = 1) =>
        "number,name,squad\n" + string.Concat(Enumerable.Range(first, many).Select(i => $"{i},Oriel Many{i},A\n"));

    private static WriteGate Gate(StationFixture station) => station.Services.GetRequiredService<WriteGate>();

    private static bool Wait(ManualResetEventSlim hold) => hold.Wait(TimeSpan.FromMinutes(2));

    private static async Task<(Event Into, ImportChoices Chosen)> Chosen(StationFixture station, int many, string? oneMore = null)
    {
        await station.Hold("LONG");
        var into = station.Services.GetRequiredService<Events>().Find("LONG")!;
        var text = List(many) + (oneMore is null ? "" : $"{oneMore},Oriel Last,A\n");
        Assert.True(new ImportFile("The list", System.Text.Encoding.UTF8.GetBytes(text)).TryRead(null, out var table, out _));
        var plan = station.Services.GetRequiredService<EntryImport>().Plan(into, table, Matcher.Of(table, into.Squads, _ => null));
        return (into, ImportChoices.Of(plan, new FormCollection([])));
    }

    private static ImportRun Run(StationFixture station, Event into, ImportChoices chosen)
    {
        var director = station.Services.GetRequiredService<SignIns>().Check("director", station.Passcode)!.Person;
        return new ImportRun(
            new HeldFile("0", director, into.Id, new ImportFile("The list", [1]), StationClock.Only.GetUtcNow()), into,
            chosen.Entries.Count, chosen, new ChangedBy(director, StationClock.Only.GetUtcNow()));
    }

    private static long Scalar(StationFixture station, string sql)
    {
        using var reading = station.Services.GetRequiredService<Database>().OpenForReading();
        return reading.ExecuteScalar<long>(sql);
    }

    private static string Rows(StationFixture station) => string.Join(' ', ((string[])[
        "entry", "person", "person_name_word", "entry_import", "event_change"])
        .Select(table => Scalar(station, $"SELECT count(*) FROM {table}")));

    // How many entries there are of a list that is not done.
    private static long Left(Database store)
    {
        using var reading = store.OpenForReading();
        return reading.ExecuteScalar<long>("SELECT count(*) FROM entry e JOIN entry_import i ON i.import = e.import WHERE i.open = 1");
    }

    // The page to which the one that says how far a list is leads in the end.
    private static async Task<IDocument> Until(HttpClient director, string path)
    {
        while (true)
        {
            using var answer = await director.GetAsync(path);
            if (answer.StatusCode == HttpStatusCode.OK && !path.Contains("/progress", StringComparison.Ordinal))
            {
                return await answer.Read();
            }

            path = answer.Headers.Location?.ToString() ?? path;
            await Task.Delay(20);
        }
    }

    private static async Task<HttpClient> SignedIn(StationProcess station, string passcode)
    {
        var address = station.LineWith("is open at").Split(' ')[^1];
        var client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = new Uri(address) };
        using var answer = await client.PostAsync(
            "/api/session", System.Net.Http.Json.JsonContent.Create(new { name = "director", passcode }));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return client;
    }
}
