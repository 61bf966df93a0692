using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Dapper;
using Inspect.Ledger;
using Inspect.Station.Access;
using Inspect.Station.CommandLine;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Decide;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Import;
using Inspect.Station.Tests.Lanes;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using static Inspect.Station.Tests.Record.WhichBallSteps;

namespace Inspect.Station.Tests.Close;

/// <summary>Names that are struck: their bytes are in no file of the station any more, and the register says what it said. The behaviour is
/// defined by this project.</summary>
public sealed class StrikeTests
{
    private const string Page = "/events/LANTERN/strike";

    [Fact]
    public async Task Strike_OfAnEvent_LeavesNoByteOfANameInTheFolderAndTheRegisterAsItWas()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await Everything(station, director);
        var names = Names(station);
        Assert.Equal(25, names.Count);
        names.Add("Mirela Vantablossom");
        Assert.NotEmpty(Found(station, names));
        var before = await director.GetByteArrayAsync("/api/register.jsonl");
        await Over(station);

        var page = await director.GetPage(Page);
        Assert.Equal(
            [
                "24 names", "1 earlier name", "3 remarks", "1 photograph", "1 file of a closing report", "1 contact of a guardian",
                "1 unfinished sheet",
            ],
            page.QuerySelectorAll("main section.card ul")[0].Children.Select(Html.Words));
        using var wrong = await director.Send(Form(page), ("confirm", "HARBOUR"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.StatusCode);
        Assert.NotNull((await wrong.Read()).FaultAt("confirm"));
        Assert.Equal(25, Names(station).Count);
        using var struck = await director.Send(Form(page), ("confirm", "lantern"));
        Assert.Equal($"{Page}#struck", struck.Headers.Location?.ToString());

        Assert.Empty(Found(station, names));
        var after = await director.GetByteArrayAsync("/api/register.jsonl");
        Assert.Equal(Bodies(before), Bodies(after));
        Assert.True(RegisterCheck.Check(new MemoryStream(after)).IsSound);
        Assert.Contains("\"sameBytes\": 3", Replayed(station, after), StringComparison.Ordinal);

        foreach (var path in (string[])["/events/LANTERN", "/events/LANTERN/entries/101", "/inspections/LANTERN-0001",
            "/desk?event=LANTERN", "/events/LANTERN/changes", Page, "/events/LANTERN/find?bowler=10", "/events/LANTERN/entries/103/change"])
        {
            var text = (await director.GetPage(path)).Body!.TextContent;
            Assert.DoesNotContain(names, name => text.Contains(name, StringComparison.Ordinal));
            Assert.True(text.Contains(path.EndsWith("changes", StringComparison.Ordinal) ? "names struck" : "name struck",
                StringComparison.OrdinalIgnoreCase), path);
        }

        Assert.Contains("the reason was struck", (await director.GetPage("/inspections/LANTERN-0001")).Body!.TextContent,
            StringComparison.Ordinal);
        Assert.Contains(
            "The coach saw it", (await director.GetPage("/inspections/LANTERN-0003")).Body!.TextContent, StringComparison.Ordinal);
        using var slip = await director.GetAsync("/api/inspections/LANTERN-0001/slip.pdf");
        Assert.Equal(HttpStatusCode.OK, slip.StatusCode);
        using var refused = await director.Record(SampleSheets.Request(SampleSheets.Legal()));
        Assert.Contains("name of entry 101 was struck", await refused.ProblemAt("entry"), StringComparison.Ordinal);
        var told = station.Services.GetRequiredService<EventChanges>().LastStrike("LANTERN")!;
        Assert.Equal("Hollis Vantreight", told.By);
        Assert.StartsWith("24 names, ", told.Made.Became, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Strike_BeforeTheEventIsOver_IsRefused()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");

        var page = await director.GetPage(Page);

        Assert.Null(page.QuerySelector("main form"));
        Assert.Contains("names can be struck from the day after on", page.Body!.TextContent, StringComparison.Ordinal);
        using var sent = await director.Send(
            Form(await director.GetPage("/events/LANTERN/entries/102/change"), to: Page), ("confirm", "LANTERN"), ("names", "24"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, sent.StatusCode);
        using var forbidden = await inspector.GetAsync(Page);
        Assert.Equal(HttpStatusCode.Forbidden, forbidden.StatusCode);
        Assert.Equal(24, Names(station).Count);
    }

    [Fact]
    public async Task Strike_SomebodyWhoIsEnteredElsewhere_StaysUntilThatEventIsDue()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var person = station.Services.GetRequiredService<Events>().FindEntry("LANTERN", "101")!.Person;
        await Second(station, person);
        await Over(station);

        var first = await director.GetPage(Page);
        Assert.Equal(
            ["101 Aoife Brannock-Thorne Entered at Harbour Open, where no time is set; strike that event's names too, "
                + "or this bowler's alone."],
            first.QuerySelectorAll("tbody tr").Select(row => string.Join(' ', row.Children.Select(Html.Words))));
        using var struck = await director.Send(Form(first), ("confirm", "LANTERN"));
        Assert.Equal(["Aoife Brannock-Thorne"], Names(station));

        // The first event does not hold the name any more: its names were struck.
        using var second = await director.Send(Form(await director.GetPage("/events/HARBOUR/strike")), ("confirm", "HARBOUR"));
        Assert.Equal(HttpStatusCode.Redirect, second.StatusCode);
        Assert.Empty(Names(station));
        Assert.Empty(Found(station, ["Aoife Brannock-Thorne"]));
    }

    [Fact]
    public async Task Strike_OfOneBowler_TakesThatNameAloneFromEveryEvent()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await Second(station, station.Services.GetRequiredService<Events>().FindEntry("LANTERN", "101")!.Person);
        using var issued = await director.Send(await director.GetPage("/desk/events/LANTERN/reports"));
        await Over(station);

        using var struck = await director.Send(
            Form(await director.GetPage("/events/LANTERN/entries/101/strike")), ("confirm", "LANTERN"));

        Assert.Equal("/events/LANTERN/entries/101/strike#struck", struck.Headers.Location?.ToString());
        Assert.Equal(23, Names(station).Count);
        using var report = await director.GetAsync("/desk/events/LANTERN/reports/LANTERN-R000000.pdf");
        Assert.Equal(HttpStatusCode.OK, report.StatusCode);
        Assert.Empty(Found(station, ["Aoife Brannock-Thorne"]));
        Assert.Contains(
            "entry 101, name struck: 1 name", (await director.GetPage("/events/LANTERN/changes")).QuerySelector("main")!.Words(),
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task Guardians_OfAnEventThatIsOver_AreStruckAloneAndLeaveNoByte()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var set = await director.Send(Form(await director.GetPage("/events/LANTERN/entries/101/change")),
            ("underAge", "yes"), ("guardian", "Mirela Vantablossom, 0170 555 01"));
        using var second = await director.Send(Form(await director.GetPage("/events/LANTERN/entries/102/change")),
            ("underAge", "yes"), ("guardian", "Ondrej Vantablossom"));
        Assert.Equal(HttpStatusCode.Redirect, second.StatusCode);
        Assert.NotEmpty(Found(station, ["Mirela Vantablossom", "Ondrej Vantablossom"]));
        Assert.Null((await director.GetPage(Page)).QuerySelector("form[action$='/guardians']"));
        await Over(station);
        Assert.Contains("2 contacts of guardians can be struck now.", (await director.GetPage("/events/LANTERN")).Body!.TextContent,
            StringComparison.Ordinal);

        var form = (await director.GetPage(Page)).QuerySelector<IHtmlFormElement>("form[action$='/guardians']")!;
        using var struck = await director.Send(form);

        Assert.Equal(Page, struck.Headers.Location?.ToString());
        Assert.Empty(Found(station, ["Mirela Vantablossom", "Ondrej Vantablossom"]));
        Assert.Equal(24, Names(station).Count);
        Assert.Contains("contacts of guardians struck: 2",
            (await director.GetPage("/events/LANTERN/changes")).QuerySelector("main")!.Words(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task NamesKept_SetOnTheForm_IsSaidByTheEventAndItsReport()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var wrong = await director.Send(
            Form(await director.GetPage("/events/LANTERN/change")), ("namesKeptDays", "ninety"));
        Assert.StartsWith("\"ninety\" is not a number of days", (await wrong.Read()).FaultAt("namesKeptDays"), StringComparison.Ordinal);
        using var set = await director.Send(Form(await director.GetPage("/events/LANTERN/change")), ("namesKeptDays", "90"));
        Assert.Equal(HttpStatusCode.Redirect, set.StatusCode);
        Assert.Contains("names kept: no time set → 90 days after the last day",
            (await director.GetPage("/events/LANTERN/changes")).QuerySelector("main")!.Words(), StringComparison.Ordinal);
        Assert.Contains("are due to be struck on 22 February 2027", (await director.GetPage("/events/LANTERN")).Body!.TextContent,
            StringComparison.Ordinal);

        await Over(station, 100);
        const string Due = "The names of its bowlers are due to be struck since 11 November 2026.";
        Assert.Contains(Due, (await director.GetPage("/events/LANTERN")).Body!.TextContent, StringComparison.Ordinal);
        using var report = UglyToad.PdfPig.PdfDocument.Open(
            await director.GetByteArrayAsync("/desk/events/LANTERN/closing-report.pdf?paper=a4"));
        Assert.Contains("due to be struck since 11 November 2026", string.Concat(report.GetPages().Select(page =>
            string.Join(' ', page.GetWords().Select(word => word.Text)))), StringComparison.Ordinal);
    }

    [Fact]
    public async Task StrikeVerb_OnAStoppedStation_AsksForTheShortNameAndThenStrikes()
    {
        var folder = StationFixture.NewFolder();
        List<string> names;
        await using (var station = new StationFixture(folder: folder))
        {
            using var director = await station.Client("director");
            names = Names(station);
            await Over(station);
        }

        string[] asked = ["--data", folder, "--event", "LANTERN", "--by", "director"];
        Assert.Equal((3, "", "\"inspector\" is not the sign-in of a director here."), Run("", [.. asked[..5], "inspector"]));
        Assert.Equal(1, Run("", [.. asked, "--before", "2026-01-01"]).Exit);
        var (exit, said, wrong) = Run("lantern\n", asked);
        Assert.Equal((1, "Nothing was struck."), (exit, wrong));
        Assert.StartsWith("To be struck: 24 names.", said, StringComparison.Ordinal);
        Assert.NotEmpty(Found(folder, names));
        (exit, said, wrong) = Run("LANTERN\n", asked);
        Assert.Equal((0, ""), (exit, wrong));
        Assert.EndsWith("Struck, and the store was written anew.", said, StringComparison.Ordinal);

        Assert.Empty(Found(folder, names));
        Directory.Delete(folder, recursive: true);
    }

    // Whatever of the station holds a name, each once.
    private static async Task Everything(StationFixture station, HttpClient director)
    {
        using var renamed = await director.Send(
            Form(await director.GetPage("/events/LANTERN/entries/101/change")), ("name", "Aoife Brannock-Thornby"),
            ("underAge", "yes"), ("guardian", "Mirela Vantablossom"));
        var request = SampleSheets.Request(RulingSteps.Undecided());
        request["notMeasured"] = new JsonArray(new JsonObject { ["path"] = "size.circumference", ["reason"] = "Aoife had no time" });
        using var recorded = await director.Record(request);
        Assert.True(recorded.IsSuccessStatusCode, await recorded.Content.ReadAsStringAsync());
        using var photograph = await Photograph(director, Jpeg);
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(RulingSteps.Undecided(), "103");
        using var ruled = await RulingSteps.Rule(director, "LANTERN-0002", "accept", "Shown by TOMAS IBARRONDO-QUELL's coach");
        Assert.True(ruled.IsSuccessStatusCode, await ruled.Content.ReadAsStringAsync());
        await inspector.Recorded(RulingSteps.Undecided(), "104");
        using var other = await RulingSteps.Rule(director, "LANTERN-0003", "accept", "The coach saw it");
        Assert.True(other.IsSuccessStatusCode, await other.Content.ReadAsStringAsync());
        using var compared = await SpotCheckSteps.SpotCheck(
            director, "LANTERN-0002", """{"isTheBall":false,"differs":["serial"],"remark":"Tomas says it is his other one"}""");
        Assert.True(compared.IsSuccessStatusCode, await compared.Content.ReadAsStringAsync());
        using var issued = await director.Send(await director.GetPage("/desk/events/LANTERN/reports"));
        using var aside = await director.Send(
            await director.GetPage("/events/LANTERN/entries/106/balls/new"), ("weights.gross", "15-1"), ("act", "aside"));
        await director.Paste("301\tOrsolya Vantablossom");
    }

    private static Task<bool> Over(StationFixture station, int days = 1) => station.Services.GetRequiredService<WriteGate>().Run(write =>
        Events.MoveDays(write, "LANTERN", StationClock.Today.AddDays(-days - 3), StationClock.Today.AddDays(-days)));

    private static Task<bool> Second(StationFixture station, PersonId person) => station.Services
        .GetRequiredService<WriteGate>().Run(write =>
    {
        var last = StationClock.Today.AddDays(-30);
        Events.Add(write, DemoEvent.On(last) with { Id = "HARBOUR", Name = "Harbour Open", To = last });
        Events.Enter(write, "HARBOUR", new NewEntry("7", "", null) { Known = person });
        return true;
    });

    private static IHtmlFormElement Form(IDocument page, string? to = null)
    {
        var form = page.QuerySelector<IHtmlFormElement>("main form[action$='/strike'], main form[action$='/change']")!;
        form.SetAttribute("action", to ?? form.GetAttribute("action"));
        return form;
    }

    private static List<string> Names(StationFixture station)
    {
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        return connection.Query<string>(
            """
            SELECT p.name FROM person p WHERE p.name IS NOT NULL AND NOT EXISTS (SELECT 1 FROM sign_in s WHERE s.person = p.id)
            UNION SELECT was FROM changed_name
            """).AsList();
    }

    private static List<string> Found(StationFixture station, IEnumerable<string> names) => Found(station.Folder, names);

    // Every name and every longer word of it, as written, without accents and in small letters, in UTF-8 and both orders of UTF-16.
    private static List<string> Found(string folder, IEnumerable<string> names)
    {
        var texts = names.SelectMany(name => NameFold.FoundBy(name).Where(word => word.Length > 4)
                .Concat(name.Split(' ', '-').Where(word => word.Length > 4)).Append(name)
                .Append(name.Normalize(NormalizationForm.FormD)).Append(string.Join(' ', NameFold.Words(name))))
            .SelectMany(text => new[] { text, text.ToUpper(CultureInfo.InvariantCulture) }).Distinct().ToList();
        var files = Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)
            .Where(file => Path.GetFileName(file) != "station.lock").Select(file => (file, Bytes: Read(file))).ToList();
        Assert.Contains(files, file => file.Bytes.Length > 100_000);
        return [.. from file in files
                   from text in texts
                   from encoding in new[] { Encoding.UTF8, Encoding.Unicode, Encoding.BigEndianUnicode }
                   where file.Bytes.AsSpan().IndexOf(encoding.GetBytes(text)) >= 0
                   select $"{Path.GetFileName(file.file)}: {text}"];
    }

    private static byte[] Read(string file)
    {
        using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }

    // The last line is the checkpoint, whose signature is another one each time.
    private static string[] Bodies(byte[] export) => Encoding.UTF8.GetString(export).TrimEnd('\n').Split('\n')[..^1];

    private static string Replayed(StationFixture station, byte[] export)
    {
        var file = Path.Combine(Directory.CreateTempSubdirectory("inspect-test-").FullName, "register.jsonl");
        File.WriteAllBytes(file, export);
        using var output = new StringWriter();
        Assert.Equal(0, ReplayVerb.Run([file, "--bytes"], Stream.Null, output, TextWriter.Null));
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
        return output.ToString();
    }

    private static (int Exit, string Output, string Error) Run(string typed, string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var exit = StrikeVerb.Run(args, new StringReader(typed), output, error, StationClock.Only);
        return (exit, output.ToString().Trim(), error.ToString().Trim());
    }
}
