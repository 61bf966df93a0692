using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Inspect.Station.Access;
using Inspect.Station.CommandLine;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.CommandLine;

/// <summary>The station as it is tried: with a morning of invented inspections, or empty. Defined by this project.</summary>
public sealed class TrialTests
{
    [Fact]
    public async Task Morning_IsRecordedLikeAnyOther_AndShowsEveryStanding()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var held = station.Services.GetRequiredService<Events>().Find(DemoEvent.Id)!;
        var signIns = station.Services.GetRequiredService<SignIns>();

        await new DemoMorning(station.Services, held).Record(
            signIns.Check("inspector", station.Passcode)!, signIns.Check("director", station.Passcode)!);

        var found = (await director.GetFromJsonAsync<JsonNode>("/api/inspections?event=LANTERN&size=100"))!["inspections"]!.AsArray();
        var numbers = found.Select(each => (string)each!["number"]!).ToList();
        Assert.Equal(41, numbers.Distinct().Count());
        Assert.Equal(
            [("fail", 5), ("hold", 3), ("pass", 33)],
            found.CountBy(each => (string)each!["outcome"]!).OrderBy(each => each.Key).Select(each => (each.Key, each.Value)));
        var standings = found.Select(each => (string)each!["standing"]!).ToHashSet();
        Assert.Superset(new HashSet<string> { "stands", "superseded", "withdrawn", "ruled" }, standings);
        Assert.Equal(2, station.Services.GetRequiredService<BowlerQueue>().Of(held).Tables.Count);
        Assert.Equal(3, station.Services.GetRequiredService<BowlerQueue>().Of(held).Waiting.Count);

        using var output = new StringWriter();
        using var register = new MemoryStream(await director.GetByteArrayAsync("/api/register.jsonl"));
        Assert.Equal(0, ReplayVerb.Run(["-", "--bytes"], register, output, TextWriter.Null));
        Assert.Equal(41, (int)JsonNode.Parse(output.ToString())!["sameBytes"]!);
    }

    [Fact]
    public async Task Trial_BegunEmpty_HasTheEventAndNoInspection()
    {
        var home = StationFixture.NewFolder();
        try
        {
            using var station = StationProcess.Start(["--urls", "http://127.0.0.1:0"], "tried and emptied", home);
            using var first = await SignedIn(Address(station));
            Assert.Equal(41, await Count(first));

            var page = await first.GetPage("/trial/empty");
            using var begun = await first.Send(page);
            Assert.Equal(HttpStatusCode.OK, begun.StatusCode);

            using var again = await SignedIn(Address(station));
            Assert.Equal(0, await Count(again));
            Assert.Equal(24, (await again.GetFromJsonAsync<JsonArray>("/api/events/LANTERN/entries"))!.Count);
            station.AskToStop();
            Assert.Equal(0, await station.Ended());
        }
        finally
        {
            Directory.Delete(home, recursive: true);
        }
    }

    [Fact]
    public async Task Station_ThatIsNoTrial_IsNotEmptied()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");

        using var page = await director.GetAsync("/trial/empty");
        using var others = await inspector.GetAsync("/trial/empty");

        Assert.Equal((HttpStatusCode.NotFound, HttpStatusCode.Forbidden), (page.StatusCode, others.StatusCode));
    }

    private static Uri Address(StationProcess station) => new(station.LineWith("The station is open at ").Split(' ')[^1]);

    private static async Task<HttpClient> SignedIn(Uri address)
    {
        var client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = address };
        using var answer = await client.PostAsJsonAsync("/api/session", new { name = "director", passcode = "tried and emptied" });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return client;
    }

    private static async Task<int> Count(HttpClient client) =>
        (await client.GetFromJsonAsync<JsonNode>("/api/inspections?event=LANTERN&size=100"))!["inspections"]!.AsArray().Count;
}
