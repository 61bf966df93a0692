using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Access;
using Inspect.Station.Papers;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Decide;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using static Inspect.Station.Tests.Lanes.SpotCheckSteps;

namespace Inspect.Station.Tests.Lanes;

/// <summary>A ball in use compared with its slip. Common practice of officiating, no source.</summary>
public sealed class SpotCheckTests
{
    private const string Another = """{"isTheBall":false,"differs":["serial","holes"],"remark":"A fourth hole"}""";

    [Fact]
    public async Task AnotherBall_IsOpenUntilTheDirectorRulesAndStandsOnEveryPage()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        using var anyone = await station.Client();
        var recorded = await inspector.Recorded(SampleSheets.Legal());
        var (number, code) = (recorded["number"]!.GetValue<string>(), recorded["code"]!.GetValue<string>());

        using var same = await SpotCheck(inspector, number, """{"isTheBall":true}""");
        Assert.Equal(HttpStatusCode.Created, same.StatusCode);
        Assert.DoesNotContain(number, await Main("/desk/events/LANTERN/open"), StringComparison.Ordinal);
        using var passed = await RulingSteps.Rule(director, number, "accept", "Known ball");
        Assert.Equal($"{number} passed and needs no ruling.", await passed.ProblemAt("decision"));

        using var found = await SpotCheck(inspector, number, Another);
        var answer = (await found.Content.ReadFromJsonAsync<JsonObject>())!;
        Assert.Equal("serial holes", string.Join(' ', answer["differs"]!.AsArray()));
        Assert.Equal("stands", answer["standing"]!.GetValue<string>());
        const string Says = "It is not the ball as recorded. Differs: serial, holes. A fourth hole.";
        foreach (var path in new[]
        {
            "/desk/events/LANTERN/open", $"/inspections/{number}", $"/inspections/{number}/rule", "/events/LANTERN/spot-checks",
            $"/desk/balls/{recorded["ball"] ?? (await director.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!["ball"]}",
        })
        {
            Assert.Contains(Says, await Main(path), StringComparison.Ordinal);
        }

        Assert.Contains("1 not the ball as recorded", await Main("/events/LANTERN/spot-checks"), StringComparison.Ordinal);
        Assert.Contains("Rule on it", await Main("/events/LANTERN/spot-checks"), StringComparison.Ordinal);
        Assert.Equal((2L, 1L), Report().SpotChecks);
        Assert.Equal("Another ball on the lanes", Assert.Single(Report().Open).Group.Title);

        using var ruled = await RulingSteps.Rule(director, number, "accept", "The official misread the serial");
        Assert.Equal(HttpStatusCode.Created, ruled.StatusCode);
        Assert.DoesNotContain(number, await Main("/desk/events/LANTERN/open"), StringComparison.Ordinal);
        Assert.DoesNotContain("Rule on it", await Main("/events/LANTERN/spot-checks"), StringComparison.Ordinal);
        var record = (await director.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!;
        Assert.Equal(recorded["verdict"]!.ToJsonString(), record["verdict"]!.ToJsonString());
        Assert.Equal("A fourth hole", record["spotChecks"]![1]!["remark"]!.GetValue<string>());

        // Whoever scans the slip is not told what an official found; an official is.
        Assert.Null((await anyone.GetFromJsonAsync<JsonObject>($"/api/slips/{code}"))!["spotChecks"]);
        Assert.Equal(2, (await inspector.GetFromJsonAsync<JsonObject>($"/api/slips/{code}"))!["spotChecks"]!.AsArray().Count);
        Assert.DoesNotContain(
            "spot", (await anyone.GetPage($"/s/{code}")).QuerySelector("main")!.InnerHtml, StringComparison.OrdinalIgnoreCase);
        Assert.NotNull((await inspector.GetPage($"/s/{code}")).QuerySelector($"main a[href='/inspections/{number}/spot-check']"));

        // The register has what was compared and what differed, and of the remark only a hash.
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        var body = Encoding.UTF8.GetString(Register.BodyOf(connection, answer["seq"]!.GetValue<long>())!);
        Assert.Contains("\"compared\":[\"name\",\"serial\",\"holes\"],\"differs\":[\"serial\",\"holes\"]", body, StringComparison.Ordinal);
        Assert.DoesNotContain("fourth", body, StringComparison.Ordinal);

        async Task<string> Main(string path) => (await director.GetPage(path)).QuerySelector("main")!.Words();

        ClosingReport Report() => station.Services.GetRequiredService<ClosingReports>().Of(
            station.Services.GetRequiredService<Events>().Find("LANTERN")!,
            new SignedIn(PersonId.New(), "Hollis Vantreight", "director", Role.Director, ""));
    }

    [Fact]
    public async Task Form_AsksForWhatIsMissingAndRecordsOnceHoweverOftenItIsPressed()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var number = (await inspector.Recorded(SampleSheets.Legal()))["number"]!.GetValue<string>();
        var page = await inspector.GetPage($"/inspections/{number}/spot-check");

        using var nothing = await inspector.Send(page);
        Assert.Equal("Choose: it is the ball, or it is not.", (await nothing.Read()).FaultAt("isTheBall"));
        using var unsaid = await inspector.Send(page, ("isTheBall", "no"), ("remark", "Looks newer"));
        var shown = await unsaid.Read();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, unsaid.StatusCode);
        Assert.Equal("Tick what differs.", shown.FaultAt("differs"));
        Assert.Equal("Looks newer", shown.QuerySelector<IHtmlTextAreaElement>("textarea[name=remark]")!.Value.Trim());

        using var sent = await inspector.Send(shown, ("isTheBall", "no"), ("differs", "tag"));
        using var again = await inspector.Send(shown, ("isTheBall", "no"), ("differs", "tag"));
        Assert.Equal($"/inspections/{number}/spot-check?done=yes", sent.Headers.Location!.ToString());
        Assert.Equal(HttpStatusCode.Redirect, again.StatusCode);
        var done = (await inspector.GetPage(sent.Headers.Location.ToString())).QuerySelector("main")!.Words();
        Assert.Contains("Recorded: it is another ball", done, StringComparison.Ordinal);
        Assert.Single((await inspector.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!["spotChecks"]!.AsArray());

        // What was ticked before somebody changed their mind does not count.
        using var after = await inspector.Send(
            await inspector.GetPage($"/inspections/{number}/spot-check"), ("isTheBall", "yes"), ("differs", "tag"));
        Assert.Equal(HttpStatusCode.Redirect, after.StatusCode);
    }

    [Fact]
    public async Task SlipThatNoLongerCounts_SaysSoFirstAndTakesNoSpotCheck()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        await inspector.Recorded(SampleSheets.Legal());
        var again = SampleSheets.Request(SampleSheets.TooHeavyOnTheLeft());
        again["supersedes"] = "LANTERN-0001";
        using var second = await inspector.Record(again);
        await inspector.Recorded(SampleSheets.Legal(), "102");
        using var withdrawn = await RulingSteps.Rule(director, "LANTERN-0003", "withdraw", "Wrong entry");

        foreach (var (number, heading, sentence) in new[]
        {
            ("LANTERN-0001", "This slip no longer counts",
                "LANTERN-0001 was replaced by LANTERN-0002: compare the ball with LANTERN-0002."),
            ("LANTERN-0003", "This slip was withdrawn",
                "LANTERN-0003 was withdrawn and no longer counts: the ball is measured before it is used."),
        })
        {
            var page = await inspector.GetPage($"/inspections/{number}/spot-check");
            Assert.Equal(heading, page.QuerySelector("main h1")!.TextContent);
            Assert.Null(page.QuerySelector("main form"));
            using var refused = await SpotCheck(inspector, number, Another);
            Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
            Assert.Equal(sentence, await refused.ProblemAt("$"));
        }

        Assert.Equal("Fail", (await inspector.GetPage("/inspections/LANTERN-0002/spot-check")).QuerySelector("main h1")!.TextContent);
    }

    [Fact]
    public async Task Request_NonsenseOrUnderAUsedKey_IsRefusedAndRecordsNothing()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var anyone = await station.Client();
        var number = (await inspector.Recorded(SampleSheets.Legal()))["number"]!.GetValue<string>();
        using var first = await SpotCheck(inspector, number, Another, "one");
        var size = station.Services.GetRequiredService<WriteGate>().Head.Size;

        foreach (var (body, path) in new[]
        {
            ("{}", "isTheBall"),
            ("""{"isTheBall":"yes"}""", "isTheBall"),
            ("""{"isTheBall":false}""", "differs"),
            ("""{"isTheBall":false,"differs":[]}""", "differs"),
            ("""{"isTheBall":false,"differs":["colour"]}""", "differs[0]"),
            ("""{"isTheBall":true,"differs":["serial"]}""", "differs"),
            ("""{"isTheBall":true,"remark":" "}""", "remark"),
            ("""{"isTheBall":true,"verdict":"pass"}""", "verdict"),
            ("{", "$"),
        })
        {
            using var answer = await SpotCheck(inspector, number, body);
            Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
            Assert.True(await answer.ProblemAt(path) is not null, body);
        }

        using var second = await SpotCheck(inspector, number, Another, "one");
        using var other = await SpotCheck(inspector, number, """{"isTheBall":true}""", "one");
        using var nobody = await SpotCheck(anyone, number, Another);
        using var nothing = await SpotCheck(inspector, "LANTERN-0999", Another);
        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.OK), (first.StatusCode, second.StatusCode));
        Assert.Equal(await first.Content.ReadAsStringAsync(), await second.Content.ReadAsStringAsync());
        Assert.Equal(
            (HttpStatusCode.UnprocessableEntity, HttpStatusCode.Unauthorized, HttpStatusCode.NotFound),
            (other.StatusCode, nobody.StatusCode, nothing.StatusCode));
        Assert.Equal(size, station.Services.GetRequiredService<WriteGate>().Head.Size);
    }
}
