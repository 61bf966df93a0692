using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Inspect.Station.Record;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;
using static Inspect.Station.Tests.Record.WhichBallSteps;

namespace Inspect.Station.Tests.Record;

/// <summary>The numbered tag on a ball: worn by one ball of an event, shown wherever the ball is. The
/// behaviour is defined by this project.</summary>
public sealed class TagTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task Tag_OnAnotherStandingBall_IsRefusedWithTheInspectionThatHasIt()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await Tagged(inspector, "S-0042", "101");

        using var taken = await inspector.Record(With(SampleSheets.Request(Other(), "102"), "tag", "s 0042"));
        Assert.Equal(
            "Tag \"s 0042\" is on the ball of LANTERN-0001; give this ball another one, or look at both.", await taken.ProblemAt("tag"));

        // The same ball, measured again or with another grip, keeps its tag; once it is replaced without one, the tag is free.
        using var again = await inspector.Record(
            With(With(SampleSheets.Request(SampleSheets.Legal()), "supersedes", "LANTERN-0001"), "tag", "S-0042"));
        Assert.Equal(HttpStatusCode.Created, again.StatusCode);
        using var bare = await inspector.Record(With(SampleSheets.Request(SampleSheets.Legal()), "supersedes", "LANTERN-0002"));
        Assert.Equal(HttpStatusCode.Created, bare.StatusCode);
        using var free = await inspector.Record(With(SampleSheets.Request(Other(), "102"), "tag", "s 0042"));
        Assert.Equal(HttpStatusCode.Created, free.StatusCode);
    }

    [Fact]
    public async Task Tag_SentAtOneInstant_IsGivenToOneBall()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");

        var answers = await Task.WhenAll(Enumerable.Range(101, 8).Select(
            entry => inspector.Record(With(SampleSheets.Request(SampleSheets.Legal(), $"{entry}"), "tag", "T1"))));

        Assert.Single(answers, answer => answer.StatusCode == HttpStatusCode.Created);
    }

    [Theory]
    [InlineData("\"123456789012345678901\"", "\"123456789012345678901\" is 21 characters long; at most 20 are kept.")]
    [InlineData("\"--\"", "\"--\" has no letter or digit; write the tag as it is printed, such as S-0042.")]
    [InlineData("7", "This is 7; a text in quotes is wanted here.")]
    public async Task Tag_Unusable_IsRefusedInASentence(string tag, string message)
    {
        var station = shared.Station;
        using var inspector = await station.Client("inspector");

        using var answer = await inspector.Record(With(SampleSheets.Request(SampleSheets.Legal()), "tag", JsonNode.Parse(tag)!));

        Assert.Equal(message, await answer.ProblemAt("tag"));
    }

    [Fact]
    public async Task Tag_Recorded_IsOnRecordScanSlipAndFindsTheEntry()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var code = (await Tagged(inspector, "S-0042", "117"))["code"]!.GetValue<string>();

        Assert.Contains(
            "S-0042", (await inspector.GetPage("/inspections/LANTERN-0001")).QuerySelector("main")!.Words(), StringComparison.Ordinal);
        Assert.Contains("S-0042", (await inspector.GetPage($"/s/{code}")).QuerySelector("main")!.Words(), StringComparison.Ordinal);
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

    private static JsonObject Other()
    {
        var sheet = SampleSheets.Legal();
        sheet["ball"]!["serial"] = "4TN88812";
        return sheet;
    }
}
