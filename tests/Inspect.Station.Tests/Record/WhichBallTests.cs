using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Dapper;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Record;

/// <summary>Which ball it was: its tag, its photograph, serials that look alike, and the work done to it. The behaviour is defined by this project.</summary>
public sealed class WhichBallTests
{
    // The smallest files of each kind that their first bytes tell: JPEG (ISO/IEC 10918-1), PNG (ISO/IEC 15948), WebP (RFC 9649).
    private static readonly byte[] Jpeg =
        [0xFF, 0xD8, 0xFF, 0xE0, 0x00, 0x07, .. "JFIF\0"u8, 0xFF, 0xDA, 0x00, 0x03, 0x01, 0x11, 0xFF, 0x00, 0x22, 0xFF, 0xD9];
    private static readonly byte[] Png =
    [
        .. Photographs.Png, 0, 0, 0, 1, .. "IHDR"u8, 7, 1, 2, 3, 4, 0, 0, 0, 3, .. "tEXt"u8, .. "GPS"u8, 1, 2, 3, 4,
        0, 0, 0, 1, .. "IDAT"u8, 7, 1, 2, 3, 4, 0, 0, 0, 0, .. "IEND"u8, 1, 2, 3, 4,
    ];

    [Fact]
    public async Task Tag_OnAnotherStandingBall_IsRefusedWithTheInspectionThatHasIt()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await Tagged(inspector, "S-0042", "101");

        using var taken = await inspector.Record(With(Sheets.Request(Other(), "102"), "tag", "s 0042"));
        Assert.Equal("Tag \"s 0042\" is on the ball of LANTERN-0001; give this ball another one, or look at both.", await taken.ProblemAt("tag"));

        // The same ball, measured again or with another grip, keeps its tag; once it is replaced without one, the tag is free.
        using var again = await inspector.Record(With(With(Sheets.Request(Sheets.Legal()), "supersedes", "LANTERN-0001"), "tag", "S-0042"));
        Assert.Equal(HttpStatusCode.Created, again.StatusCode);
        using var bare = await inspector.Record(With(Sheets.Request(Sheets.Legal()), "supersedes", "LANTERN-0002"));
        Assert.Equal(HttpStatusCode.Created, bare.StatusCode);
        using var free = await inspector.Record(With(Sheets.Request(Other(), "102"), "tag", "s 0042"));
        Assert.Equal(HttpStatusCode.Created, free.StatusCode);
    }

    [Fact]
    public async Task Tag_SentAtOneInstant_IsGivenToOneBall()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");

        var answers = await Task.WhenAll(Enumerable.Range(101, 8).Select(entry => inspector.Record(With(Sheets.Request(Sheets.Legal(), $"{entry}"), "tag", "T1"))));

        Assert.Single(answers, answer => answer.StatusCode == HttpStatusCode.Created);
    }

    [Theory]
    [InlineData("\"123456789012345678901\"", "\"123456789012345678901\" is 21 characters long; at most 20 are kept.")]
    [InlineData("\"--\"", "\"--\" has no letter or digit; write the tag as it is printed, such as S-0042.")]
    [InlineData("7", "This is 7; a text in quotes is wanted here.")]
    public async Task Tag_Unusable_IsRefusedInASentence(string tag, string message)
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");

        using var answer = await inspector.Record(With(Sheets.Request(Sheets.Legal()), "tag", JsonNode.Parse(tag)!));

        Assert.Equal(message, await answer.ProblemAt("tag"));
    }

    [Fact]
    public async Task Tag_Recorded_IsOnRecordScanSlipAndFindsTheEntry()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var code = (await Tagged(inspector, "S-0042", "117"))["code"]!.GetValue<string>();

        Assert.Contains("S-0042", Text((await inspector.GetPage("/inspections/LANTERN-0001")).QuerySelector("main")!), StringComparison.Ordinal);
        Assert.Contains("S-0042", Text((await inspector.GetPage($"/s/{code}")).QuerySelector("main")!), StringComparison.Ordinal);
        Assert.Equal("S-0042", (await inspector.GetFromJsonAsync<JsonObject>("/api/inspections/LANTERN-0001"))!["tag"]!.GetValue<string>());
        Assert.Equal("S-0042", (await inspector.GetFromJsonAsync<JsonObject>($"/api/slips/{code}"))!["ball"]!["tag"]!.GetValue<string>());
        var found = station.Services.GetRequiredService<InspectionLookup>().ByNumber(new InspectionNumber("LANTERN", 1))!;
        Assert.Equal("S-0042", station.Services.GetRequiredService<Inspect.Station.Slip.SlipPrinter>().Content(found).BallTag);
        using var entry = await inspector.GetAsync("/events/LANTERN/find?bowler=s0042");
        Assert.Equal("/events/LANTERN/entries/117", entry.Headers.Location!.ToString());

        using var director = await station.Client("director");
        var atTheDesk = (await director.GetFromJsonAsync<JsonObject>("/api/inspections?q=s0042"))!;
        Assert.Equal("LANTERN-0001", Assert.Single(atTheDesk["inspections"]!.AsArray())!["number"]!.GetValue<string>());
    }

    [Fact]
    public async Task Rebuild_TagsAndPhotographs_GivesTheSameIndexes()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await Tagged(inspector, "S-0042", "101");
        await Tagged(inspector, "S-0043", "102");
        using var sent = await Photograph(inspector, Jpeg);
        var before = Dump(station);

        await station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            write.Connection.Execute("DELETE FROM tag_index; DELETE FROM photograph_index", null, write.Transaction);
            Tags.Rebuild(write);
            Photographs.Rebuild(write);
            return 0;
        });

        Assert.Equal(before, Dump(station));
        Assert.Equal(3, before.Count);
    }

    [Fact]
    public async Task Photograph_FromATablet_IsKeptHashedAndShownOnlyToWhoIsSignedIn()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var anyone = await station.Client();
        await inspector.Recorded(Sheets.Legal());

        using var sent = await Photograph(inspector, Jpeg);
        using var twice = await Photograph(inspector, Jpeg);
        Assert.Equal("/inspections/LANTERN-0001#photographs", sent.Headers.Location!.ToString());

        var source = Assert.Single((await inspector.GetPage("/inspections/LANTERN-0001")).QuerySelectorAll(".photographs img")).GetAttribute("src")!;
        using var shown = await inspector.GetAsync(source);
        Assert.Equal(Jpeg, await shown.Content.ReadAsByteArrayAsync());
        Assert.Equal(("image/jpeg", "no-store", "inline"), (shown.Content.Headers.ContentType!.MediaType, shown.Headers.CacheControl!.ToString(), shown.Content.Headers.ContentDisposition!.ToString()));
        Assert.Equal("nosniff", Assert.Single(shown.Headers.GetValues("X-Content-Type-Options")));
        using var unsigned = await anyone.GetAsync(source);
        Assert.Equal(HttpStatusCode.Redirect, unsigned.StatusCode);
        var entry = Entries(station, "photograph").Single();
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(Jpeg)), entry["sha256"]!.GetValue<string>());
        Assert.Equal("LANTERN-0001", entry["inspection"]!.GetValue<string>());
        Assert.DoesNotContain("Ida", entry.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Photograph_Struck_IsGoneAndTheRegisterStillChecks()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Recorded(Sheets.Legal());
        using var sent = await Photograph(director, Png);
        var page = await director.GetPage("/inspections/LANTERN-0001");
        var source = page.QuerySelector(".photographs img")!.GetAttribute("src")!;
        Assert.DoesNotContain("GPS", Encoding.Latin1.GetString(await director.GetByteArrayAsync(source)), StringComparison.Ordinal);

        using var struck = await director.Send(page.QuerySelector<IHtmlFormElement>("form[action$='/strike']")!);

        using var gone = await director.GetAsync(source);
        Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
        Assert.Contains("Photograph 1 was struck", Text((await director.GetPage("/inspections/LANTERN-0001")).QuerySelector(".photographs")!), StringComparison.Ordinal);
        Assert.Single(Entries(station, "photograph"));
        using (var inspector = await station.Client("inspector"))
        {
            Assert.Null((await inspector.GetPage("/inspections/LANTERN-0001")).QuerySelector("form[action$='/strike']"));
        }

        await using var export = await director.GetStreamAsync("/api/register.jsonl");
        Assert.True(Inspect.Ledger.RegisterCheck.Check(export).IsSound);
    }

    [Theory]
    [InlineData("", "Choose a photograph, or take one with the camera.")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>", "\"ball.jpg\" is no JPEG, PNG or WebP picture; take the photograph as one of these.")]
    [InlineData("RIFF\u0020\0\0\0WEBPVP8 ", "\"ball.jpg\" is a WebP picture that breaks off or is damaged; take the photograph once more.")]
    [InlineData("RIFF1234WAVEfmt ", "\"ball.jpg\" is no JPEG, PNG or WebP picture; take the photograph as one of these.")]
    public async Task Photograph_ThatIsNone_IsRefusedInASentence(string content, string message)
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(Sheets.Legal());

        using var answer = await Photograph(inspector, Encoding.ASCII.GetBytes(content));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Equal(message, (await answer.Read()).FaultAt("photograph"));
        Assert.Empty(Entries(station, "photograph"));
    }

    [Fact]
    public async Task Photograph_TooLarge_IsRefusedWithItsSize()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(Sheets.Legal());

        using var answer = await Photograph(inspector, [.. Jpeg, .. new byte[Photographs.MostBytes]]);

        Assert.Equal("\"ball.jpg\" has 8.0 MB; at most 8 MB are kept, so take it with fewer pixels.", (await answer.Read()).FaultAt("photograph"));
    }

    [Theory]
    [InlineData("9QF3I207", "102", "Serial 9QF3I207 is easily taken for 9QF31207 of entry 101, LANTERN-0001: read it once more.")]
    [InlineData("9QF31207", "102", "Serial 9QF31207 was recorded for entry 101 as well, LANTERN-0001: look at both balls before either is used.")]
    [InlineData("9QF31207", "101", "Serial 9QF31207 was recorded as another ball of this entry, LANTERN-0001: if it is the same ball, open that record and measure it again from there.")]
    [InlineData("9QF31208", "102", null)]
    public async Task Serial_ThatLooksLikeAnother_IsPointedOutAndNeverRefused(string serial, string entry, string? sentence)
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(Sheets.Legal(), "101");
        var sheet = Sheets.Legal();
        sheet["ball"]!["serial"] = serial;

        await inspector.Recorded(sheet, entry);

        var notes = (await inspector.GetPage("/inspections/LANTERN-0002")).QuerySelectorAll("p.overruled").Select(Text);
        Assert.Equal(sentence is null ? [] : [sentence], notes);
    }

    [Fact]
    public async Task Again_WithWorkDone_ShowsWhatChangedAndKeepsTheTextApart()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(Sheets.TooHeavyOnTheLeft());
        var request = With(With(Sheets.Request(Sheets.Legal()), "supersedes", "LANTERN-0001"), "workDone", "Vent hole plugged by Ferris");

        using var again = await inspector.Record(request);

        Assert.Equal(HttpStatusCode.Created, again.StatusCode);
        var page = await inspector.GetPage("/inspections/LANTERN-0002");
        Assert.Contains("Work done: Vent hole plugged by Ferris", Text(page.QuerySelector(".since")!), StringComparison.Ordinal);
        Assert.Equal(
            ["Left or right | 3.25 oz left | 0.5 oz right | +3.75 oz the event lays down no uncertainty"],
            page.QuerySelectorAll(".since tbody tr").Select(row => string.Join(" | ", row.Children.Select(cell => string.Join(' ', cell.ChildNodes.Select(node => node.TextContent.Trim()).Where(text => text.Length > 0))))));
        var body = Entries(station, "inspection").Last();
        Assert.DoesNotContain("Ferris", body.ToJsonString(), StringComparison.Ordinal);
        Assert.Equal(64, body["workDone"]!.GetValue<string>().Length);
        Assert.Equal("Vent hole plugged by Ferris", (await inspector.GetFromJsonAsync<JsonObject>("/api/inspections/LANTERN-0002"))!["workDone"]!.GetValue<string>());

        // Struck, the text is gone from everywhere and the record stands.
        await station.Services.GetRequiredService<WriteGate>().Run(write => write.Connection.Execute("DELETE FROM remark", null, write.Transaction));
        Assert.Contains("has been struck", Text((await inspector.GetPage("/inspections/LANTERN-0002")).QuerySelector(".since")!), StringComparison.Ordinal);
    }

    [Fact]
    public async Task WorkDone_OnABallSeenForTheFirstTime_IsRefused()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");

        using var answer = await inspector.Record(With(Sheets.Request(Sheets.Legal()), "workDone", "Sanded"));

        Assert.Equal(
            "Work done is said of a ball that is measured again; name the inspection that this one replaces in supersedes.", await answer.ProblemAt("workDone"));
    }

    [Fact]
    public async Task Form_OfABallMeasuredAgain_CarriesTheTagAndTakesTheWorkDone()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await Tagged(inspector, "S-0042", "101");
        var page = await inspector.GetPage("/events/LANTERN/entries/101/balls/new?supersedes=LANTERN-0001");
        Assert.Equal("S-0042", page.QuerySelector<IHtmlInputElement>("#tag")!.Value);
        Assert.Null((await inspector.GetPage("/events/LANTERN/entries/101/balls/new")).QuerySelector("#workDone"));

        using var judged = await inspector.Send(Form(page), ("workDone", "Sanded"), ("act", "judge"));
        using var recorded = await inspector.Send(Form(await judged.Read()), ("act", "record"));

        Assert.Equal("/inspections/LANTERN-0002", recorded.Headers.Location!.ToString());
        var answer = (await inspector.GetFromJsonAsync<JsonObject>("/api/inspections/LANTERN-0002"))!;
        Assert.Equal(("S-0042", "Sanded"), (answer["tag"]!.GetValue<string>(), answer["workDone"]!.GetValue<string>()));
    }

    [Fact]
    public async Task Form_WithATagInUseAndALookAlike_SaysBothAndLosesNothing()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await Tagged(inspector, "S-0042", "101");
        var page = await inspector.GetPage("/events/LANTERN/entries/102/balls/new");

        using var judged = await inspector.Send(Form(page), ("tag", "S-0042"), ("ball.serial", "9QF3I207"), ("act", "judge"));
        var verdict = await judged.Read();
        Assert.Equal("Serial 9QF3I207 is easily taken for 9QF31207 of entry 101, LANTERN-0001: read it once more.", Text(verdict.QuerySelector("#outcome p.overruled")!));
        using var refused = await inspector.Send(Form(verdict), ("act", "record"));

        var again = await refused.Read();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Equal("Tag \"S-0042\" is on the ball of LANTERN-0001; give this ball another one, or look at both.", again.FaultAt("tag"));
        Assert.Equal(("S-0042", "9QF3I207"), (again.QuerySelector<IHtmlInputElement>("#tag")!.Value, again.QuerySelector<IHtmlInputElement>("#ball-serial")!.Value));
    }

    private static IHtmlFormElement Form(IDocument page)
    {
        var form = page.QuerySelector<IHtmlFormElement>("main form.station")!;
        form.SetAttribute("action", form.GetAttribute("data-live")!.Replace("/live", "/new", StringComparison.Ordinal));
        return form;
    }

    private static JsonObject Other()
    {
        var sheet = Sheets.Legal();
        sheet["ball"]!["serial"] = "4TN88812";
        return sheet;
    }

    private static JsonObject With(JsonObject request, string name, JsonNode value)
    {
        request[name] = value;
        return request;
    }

    private static async Task<JsonObject> Tagged(HttpClient client, string tag, string entry)
    {
        using var answer = await client.Record(With(Sheets.Request(Sheets.Legal(), entry), "tag", tag));
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return (await answer.Content.ReadFromJsonAsync<JsonObject>())!;
    }

    private static async Task<HttpResponseMessage> Photograph(HttpClient client, byte[] bytes)
    {
        var page = await client.GetPage("/inspections/LANTERN-0001");
        using var form = new MultipartFormDataContent
        {
            { new StringContent(page.QuerySelector<IHtmlInputElement>("form.photograph input[name=__RequestVerificationToken]")!.Value), "__RequestVerificationToken" },
        };
        using var file = new ByteArrayContent(bytes);
        file.Headers.ContentType = new MediaTypeHeaderValue("image/jpeg");
        form.Add(file, "photograph", "ball.jpg");
        return await client.PostAsync("/inspections/LANTERN-0001/photographs", form);
    }

    private static List<JsonObject> Entries(StationFixture station, string kind)
    {
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        return [.. connection.Query<byte[]>("SELECT body FROM register_entry WHERE kind = @kind ORDER BY seq", new { kind }).Select(body => JsonNode.Parse(body)!.AsObject())];
    }

    private static List<string> Dump(StationFixture station)
    {
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        return [.. connection.Query<string>(
            """
            SELECT seq || event || tag || tag_key FROM tag_index
            UNION ALL SELECT seq || inspection || sha256 || media_type || by_person || at FROM photograph_index
            """)];
    }

    private static string Text(IElement element) => string.Join(' ', element.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
