using System.Globalization;
using System.IO.Compression;
using System.Net;
using System.Net.Http.Json;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Close;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Measure;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.ModelLists;

/// <summary>A list of approved balls that an event reads: brought in, looked up at the table, answered otherwise with a reason, kept with
/// each record. That a ball is listed on a day, and that a championship reads its list as at its start, is the rule of W3 (interim policy
/// of the international body, 14 October 2025, as reported); how it is looked up is defined by this project.</summary>
public class ListedBallTests
{
    private const string Models = """
        Maker,Model,Status,From,Until,Hardness,Weight,RG,Diff
        Ostrava Kiln,Nightjar,approved,2025-05-01,,75,15,2.480,0.050
        Ostrava Kiln,Nightjar,approved,2025-05-01,,75,14,2.495,0.047
        Ostrava Kiln,Corncrake,revoked,2020-05-01,2024-12-31,,,,
        Vellum Works,Nightjar Solid,approved,,,,,,
        """;

    private static readonly (string, string) ByTheList = ("ball.listed", "");

    [Fact]
    public async Task Form_ReadsTheListForMakerAndModel()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        await director.BringIn(Models, "2026-01-01");
        await director.Use(("approved", "1"));
        var page = await inspector.GetPage(TypedBall.Page);
        Assert.Equal("", page.QuerySelector<IHtmlInputElement>("[name='ball.listed']:checked")!.Value);

        var listed = await Live(inspector, page, ByTheList);
        var revoked = await Live(inspector, page, ByTheList, ("ball.model", "corn-crake"));
        var unknown = await Live(inspector, page, ByTheList, ("ball.maker", "Vellum Works"));

        Assert.Equal(
            ["\"Approved balls\" of 1 January 2026: Nightjar of Ostrava Kiln, approved, from 1 May 2025, made at 75 D.",
                "Declared at 15 lb in \"Approved balls\": RG 2.480 in, differential 0.050 in."],
            Says(listed));
        Assert.Equal("Pass", Verdict(listed));
        Assert.Equal(
            "\"Approved balls\" of 1 January 2026: Corncrake of Ostrava Kiln, revoked, from 1 May 2020, until 31 December 2024.",
            Assert.Single(Says(revoked)));
        Assert.Equal("Fail", Verdict(revoked));
        Assert.Equal(
            "\"Approved balls\" of 1 January 2026 has no Nightjar of Vellum Works. "
            + "Near it: Nightjar of Ostrava Kiln, Nightjar Solid of Vellum Works.",
            Assert.Single(Says(unknown)));
        Assert.NotNull(unknown.QuerySelector(".missing [data-field='ball.listed']"));
    }

    [Fact]
    public async Task Record_HasWhatTheListSaid_AndTheArchiveHasTheList()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        await director.BringIn(Models, "2026-01-01");
        await director.Use(("approved", "1"));

        var recorded = await inspector.RecordForm(await inspector.GetPage(TypedBall.Page), TypedBall.With(ByTheList));

        var file = await director.GetByteArrayAsync("/lists/1/versions/1");
        var hash = Convert.ToHexStringLower(SHA256.HashData(file));
        Assert.Equal("yes", (string?)recorded["sheet"]!["ball"]!["listed"]);
        Assert.Equal("2.480 in", (string?)recorded["sheet"]!["ball"]!["declared"]!["rg"]);
        var list = recorded["list"]!;
        Assert.Equal(("Approved balls", hash, "yes"), ((string?)list["name"], (string?)list["sha256"], (string?)list["said"]));
        var brought = await director.GetFromJsonAsync<JsonNode>("/api/register/entries/1.json");
        Assert.Equal(("model-list", hash, 3), ((string?)brought!["kind"], (string?)brought["sha256"], (int?)brought["models"]));
        Assert.DoesNotContain("A letter of the body", brought.ToJsonString(), StringComparison.Ordinal);

        using var archived = await director.Send(
            (await director.GetPage("/events/LANTERN/archive")).QuerySelector<IHtmlFormElement>("form[action$='/archive']")!);
        var archive = await archived.Content.ReadAsByteArrayAsync();
        Assert.Empty(ArchiveCheck.Check(new MemoryStream(archive), null).Wrong);
        using var zip = new ZipArchive(new MemoryStream(archive));
        using var kept = new MemoryStream();
        zip.GetEntry($"lists/{hash}.csv")!.Open().CopyTo(kept);
        Assert.Equal(file, kept.ToArray());
    }

    [Fact]
    public async Task Answer_OtherThanTheList_NeedsAReasonThatIsKept()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        await director.BringIn(Models, "2026-01-01");
        await director.Use(("approved", "1"));
        var page = await inspector.GetPage(TypedBall.Page);
        (string, string) no = ("ball.listed", "no");

        var asked = await Live(inspector, page, no);
        var sheet = SampleSheets.Legal();
        (sheet["ball"]!["maker"], sheet["ball"]!["model"]) = ("Ostrava Kiln", "Corncrake");
        using var byProgram = await inspector.Record(SampleSheets.Request(sheet));
        var recorded = await inspector.RecordForm(page, TypedBall.With(no, ("ball.listed.reason", "Plugged core, not this model")));

        Assert.StartsWith(
            "\"Approved balls\" of 1 January 2026: Nightjar", asked.LiveFault("ball.listed.reason"), StringComparison.Ordinal);
        Assert.Equal("yes", asked.GetElementById("live-lists")!.GetAttribute("data-otherwise"));
        Assert.Equal("no", (string?)recorded["sheet"]!["ball"]!["listed"]);
        Assert.Equal("Plugged core, not this model", (string?)recorded["list"]!["reason"]);
        var shown = await director.GetPage($"/inspections/{recorded["number"]}");
        Assert.Contains("Plugged core, not this model", shown.Body!.Words(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.BadRequest, byProgram.StatusCode);
        Assert.Contains("listedReason", await byProgram.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Event_ToldToReadAListThatIsNotThere_KeepsWhatItReads()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.BringIn(Models, "2026-01-01");
        await director.Use(("approved", "1"));
        var page = await director.GetPage("/events/LANTERN/lists");

        using var refused = await director.Send(page.QuerySelector<IHtmlFormElement>("form[action$='/lists']")!, ("approved", "7"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains("There is no list \"7\" with a version", (await refused.Read()).Body!.Words(), StringComparison.Ordinal);
        Assert.Equal(
            "1", (await director.GetPage("/events/LANTERN/lists")).QuerySelector<IHtmlSelectElement>("select[name=approved]")!.Value);
    }

    [Fact]
    public async Task Event_ReadsTheVersionOfItsDay()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        var first = StationClock.Today.AddDays(-400).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        await director.BringIn(Models, first);
        await director.BringIn(Models.Replace("Nightjar,approved", "Nightjar,revoked", StringComparison.Ordinal), SampleSheets.Today);
        await director.Use(("approved", "1"), ("day", "play"));
        var page = await inspector.GetPage(TypedBall.Page);

        var onTheDay = await Live(inspector, page, ByTheList);
        await director.Use(("approved", "1"), ("day", "start"));
        var atTheStart = await Live(inspector, page, ByTheList);

        Assert.Equal("Fail", Verdict(onTheDay));
        Assert.Equal(StationStart(station) < StationClock.Today ? "Pass" : "Fail", Verdict(atTheStart));
        var changes = (await director.GetPage("/events/LANTERN/changes")).Body!.Words();
        Assert.Contains("lists of models", changes, StringComparison.Ordinal);
        Assert.Contains("Approved balls says what is approved, as on the first day", changes, StringComparison.Ordinal);
    }

    [Fact]
    public async Task List_BroughtInAgain_SaysWhatBecomesOtherwise_AndTheSameIsNotTakenTwice()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.BringIn(Models, "2026-01-01");

        var seen = await director.SeeModels(Models.Replace("Corncrake,revoked", "Sandpiper,approved", StringComparison.Ordinal));
        using var same = await director.Send(
            ModelListSteps.Form(await director.SeeModels(Models)), ("day", "2026-01-01"), ("source", "A letter"));

        Assert.Equal(["3", "1", "1", "0", "2", "0"], seen.QuerySelectorAll("dl.sorted dd").Select(cell => cell.Words()));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, same.StatusCode);
        Assert.Contains("the same", (await same.Read()).QuerySelector("[role=alert]")!.Words(), StringComparison.Ordinal);
        var found = await director.GetPage("/lists/1?q=nigh");
        Assert.Equal(
            ["Nightjar", "Nightjar", "Nightjar Solid"],
            found.QuerySelectorAll("[aria-labelledby=models] tbody th").Select(cell => cell.Words()));
    }

    [Fact]
    public async Task Columns_SaidOnce_AreRememberedForTheSameHeads()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var odd = "Kugel,Werk\nNightjar,Ostrava Kiln\n";

        var unclear = await director.SeeModels(odd);
        Assert.Null(unclear.QuerySelector("input[name=source]"));
        var columns = unclear.QuerySelector("details.columns form")!.GetAttribute("action");
        var said = await director.GetPage($"{columns}?heads=1&column.0=model&column.1=maker");
        using var brought = await director.Send(ModelListSteps.Form(said), ("day", "2026-01-01"), ("source", "A letter"));
        Assert.Equal(HttpStatusCode.Redirect, brought.StatusCode);

        var again = await director.SeeModels(odd + "Sandpiper,Vellum Works\n");
        Assert.Equal("2", again.QuerySelector("dl.sorted dd")!.Words());
    }

    private static async Task<IDocument> Live(HttpClient inspector, IDocument page, params (string, string)[] others)
    {
        using var answer = await inspector.SendLive(page, TypedBall.With([.. others, ("ball.made", "2023")]));
        return await answer.Read();
    }

    private static IEnumerable<string> Says(IDocument live) => live.QuerySelectorAll("#live-lists li").Select(line => line.Words());

    private static string? Verdict(IDocument live) => live.QuerySelector(".verdict strong")?.Words();

    private static DateOnly StationStart(StationFixture station) =>
        ((Inspect.Station.Prepare.Events)station.Services.GetService(typeof(Inspect.Station.Prepare.Events))!).Find("LANTERN")!.From;
}
