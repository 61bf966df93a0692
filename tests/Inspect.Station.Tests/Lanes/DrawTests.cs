using System.Diagnostics;
using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Station.Decide;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Decide;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Lanes;

/// <summary>Draws by lot, repeated with a program of the system. The behaviour is defined by this project.</summary>
public sealed class DrawTests
{
    [Fact]
    public async Task Draw_FromAFixedPool_IsWhatAnyoneRepeatsAndEveryPoolStays()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        foreach (var entry in (string[])["101", "102", "103", "104"])
        {
            await inspector.Recorded(SampleSheets.Legal(), entry);
        }

        await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), "105");
        using var withdrawn = await RulingSteps.Rule(director, "LANTERN-0004", "withdraw", "Wrong entry");

        using var refused = await director.Send(await director.GetPage("/events/LANTERN/draws/new"), ("count", "9"));
        Assert.Equal("Only 3 balls may be used now; draw no more than that.", (await refused.Read()).FaultAt("count"));
        var form = await director.GetPage("/events/LANTERN/draws/new");
        using var fixedNow = await director.Send(form, ("count", "2"));
        using var pressedTwice = await director.Send(form, ("count", "2"));
        Assert.Equal(fixedNow.Headers.Location, pressedTwice.Headers.Location);
        var pool = fixedNow.Headers.Location!.ToString().Split('/')[^1];

        // What is recorded after the pool was fixed is not drawn.
        await inspector.Recorded(SampleSheets.Legal(), "106");
        using var unseen = await DrawSteps.Draw(director, pool, "4 2 6 1", "");
        Assert.Equal("Name who threw the dice or saw it, in 100 characters at most.", (await unseen.Read()).FaultAt("witness"));
        using var drawn = await DrawSteps.Draw(director, pool, "4 2 6 1", "Odalys Fenwick");
        Assert.Equal(HttpStatusCode.Redirect, drawn.StatusCode);
        await DrawSteps.Fix(director, 1, ("of", "bowlers"));

        // The form of the first pool is gone, so another seed is sent with the token of another form.
        using var another = await director.PostAsync($"/events/LANTERN/draws/{pool}", new FormUrlEncodedContent(
            new Dictionary<string, string>
            {
                ["seed"] = "6 6 6 6",
                ["witness"] = "Odalys Fenwick",
                ["__RequestVerificationToken"] = form.QuerySelector("main [name=__RequestVerificationToken]")!.GetAttribute("value")!,
            }));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, another.StatusCode);
        Assert.Contains(
            "already drawn from with the seed \"4 2 6 1\"", (await another.Read()).Body!.TextContent, StringComparison.Ordinal);

        var draws = (await inspector.GetFromJsonAsync<JsonArray>("/api/events/LANTERN/draws"))!;
        var (first, second) = (draws[0]!, draws[1]!);
        var numbers = Texts(first["pool"]!);
        Assert.Equal(["LANTERN-0001", "LANTERN-0002", "LANTERN-0003"], numbers);
        Assert.Equal(
            numbers.OrderBy(number => Sha256Sum($"{first["seed"]}:{number}"), StringComparer.Ordinal).Take(2), Texts(first["drawn"]!));
        Assert.Equal(Sha256Sum(string.Concat(numbers.Select(number => number + "\n"))), first["poolSha256"]!.GetValue<string>());
        Assert.Equal(("bowlers", null), (second["of"]!.GetValue<string>(), second["seed"]));
        Assert.Equal(["101", "102", "103", "106"], Texts(second["pool"]!));

        // The list is ticked off as the balls are compared.
        var slip = Texts(first["drawn"]!)[0];
        Assert.Contains("0 of 2 done", await Main($"/events/LANTERN/draws/{pool}"), StringComparison.Ordinal);
        using var compared = await SpotCheckSteps.SpotCheck(inspector, slip, """{"isTheBall":true}""");
        var page = await Main($"/events/LANTERN/draws/{pool}");
        Assert.Contains("1 of 2 done", page, StringComparison.Ordinal);
        Assert.Contains("Odalys Fenwick", page, StringComparison.Ordinal);
        var list = await Main("/events/LANTERN/spot-checks");
        Assert.Contains("2 of 3 balls: seed 4 2 6 1, 1 of 2 compared", list, StringComparison.Ordinal);
        Assert.Contains("1 of 4 bowlers: pool fixed, no seed typed", list, StringComparison.Ordinal);

        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        var body = Encoding.UTF8.GetString(Register.BodyOf(connection, first["drawnSeq"]!.GetValue<long>())!);
        Assert.Contains("\"seed\":\"4 2 6 1\"", body, StringComparison.Ordinal);
        Assert.DoesNotContain("Fenwick", body, StringComparison.Ordinal);

        async Task<string> Main(string path) => (await inspector.GetPage(path)).QuerySelector("main")!.Words();

        static string[] Texts(JsonNode list) => [.. list.AsArray().Select(text => text!.GetValue<string>())];
    }

    [Fact]
    public async Task Draw_ByAnInspectorOrNonsense_IsRefused()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");

        using var forbidden = await inspector.GetAsync("/events/LANTERN/draws/new");
        Assert.Equal(HttpStatusCode.Forbidden, forbidden.StatusCode);
        var form = await director.GetPage("/events/LANTERN/draws/new");
        foreach (var (name, value, sentence) in new[]
        {
            ("count", "", "Type how many are drawn."),
            ("count", "-3", "\"-3\" is not a whole number from 1 to 200."),
            ("squads", "Z", "\"Z\" is not a squad of Quillhaven Lantern Open; choose from those listed."),
            ("of", "lanes", "Choose what is drawn: balls or bowlers."),
        })
        {
            using var answer = await director.Send(form, (name, value));
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
            Assert.Equal(sentence, (await answer.Read()).FaultAt(name));
        }

        await director.Recorded(SampleSheets.Legal());
        var pool = await DrawSteps.Fix(director, 1);
        using var seedless = await DrawSteps.Draw(director, pool, "четыре", "Odalys Fenwick");
        Assert.StartsWith("\"четыре\" cannot be typed alike", (await seedless.Read()).FaultAt("seed"), StringComparison.Ordinal);
        using var nowhere = await director.GetAsync("/events/LANTERN/draws/999");
        Assert.Equal(HttpStatusCode.NotFound, nowhere.StatusCode);
    }

    /// <summary>Each number of a pool comes first for its share of the seeds: of 600 seeds and 6 numbers, 100 each. The counts are fixed,
    /// since the seeds are; a chi-square above 20.5 with 5 degrees of freedom would come by chance once in a thousand (common
    /// tables).</summary>
    [Fact]
    public void Draw_ManySeeds_FavoursNobody()
    {
        string[] pool = ["LANTERN-0001", "LANTERN-0002", "LANTERN-0003", "LANTERN-0004", "LANTERN-0005", "LANTERN-0006"];

        var firsts = Enumerable.Range(0, 600).CountBy(seed => DrawByLot.Draw($"{seed}", pool, 1)[0]).ToDictionary();

        Assert.InRange(pool.Sum(number => Math.Pow(firsts.GetValueOrDefault(number) - 100, 2) / 100), 0, 20.5);
    }

    // The hash program of the system, which is other code than the station's.
    private static string Sha256Sum(string text)
    {
        using var program = Process.Start(
            new ProcessStartInfo("sha256sum") { RedirectStandardInput = true, RedirectStandardOutput = true })!;
        program.StandardInput.Write(text);
        program.StandardInput.Close();
        var hash = program.StandardOutput.ReadToEnd()[..64];
        program.WaitForExit();
        return hash;
    }
}
