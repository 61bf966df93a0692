using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Rules.Rulesets;
using Inspect.Station.Rulesets;
using Inspect.Station.Tests.Decide;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Import;
using Inspect.Station.Tests.Record;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Web;

/// <summary>What the log says of faults, and what it never says. The behaviour is defined by this project.</summary>
public sealed class LogTests
{
    [Fact]
    public async Task MainFlows_LeaveNoNamePasscodeCodeSerialOrReadingInAnyLine()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var anyone = await station.Client();
        var secrets = new List<string> { station.Passcode, "guessed-passcode", "Marisol", "Quillfeather", "nobody-of-that-name" };

        // Signing in: wrong by page and by program until the throttle closes.
        for (var tries = 0; tries < 7; tries++)
        {
            using var refused = await anyone.PostAsJsonAsync(
                "/api/session", new { name = "nobody-of-that-name", passcode = "guessed-passcode" });
        }

        using var wrong = await anyone.Send(
            await anyone.GetPage("/sign-in"), ("name", "nobody-of-that-name"), ("passcode", "guessed-passcode"));
        using var untokened = await director.PostAsync(
            "/events/LANTERN/entries/add", new FormUrlEncodedContent([KeyValuePair.Create("lines", "1, Marisol Quillfeather")]));
        using var elsewhere = await Elsewhere(anyone);

        // Entries, a ball, a key used again, a sheet with a fault, a ruling, a photograph that is none.
        var entries = await director.GetPage("/events/LANTERN/entries/add");
        await director.Add(await director.Paste("301, Marisol Quillfeather, A\n302, Marisol Quillfeather, no such squad"));
        using var faulty = await director.Send(entries, ("lines", " "));
        using var broken = await director.SendFile([.. "PK\u0003\u0004"u8, 1, 2, 3], "Marisol Quillfeather.xlsx");
        using var first = await director.Record(SampleSheets.Request(RulingSteps.Undecided(), "301"), "key-1");
        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        var recorded = (await first.Content.ReadFromJsonAsync<JsonObject>())!;
        secrets.AddRange([recorded["code"]!.GetValue<string>(), "9QF31207", "Nightjar", "15 lb 1 oz", "-1/4 oz", "26.95"]);
        using var again = await director.Record(SampleSheets.Request(SampleSheets.Legal(), "301"), "key-1");
        var unreadable = SampleSheets.Legal();
        unreadable["weights"]!["gross"] = "15 lb 1 oz and Quillfeather";
        using var refusedSheet = await director.Record(SampleSheets.Request(unreadable, "301"));
        using var ruled = await RulingSteps.Rule(
            director, recorded["number"]!.GetValue<string>(), "withdraw", "Marisol Quillfeather asked for it.");
        using var photograph = await Photograph(director, recorded["number"]!.GetValue<string>());

        // Looking things up, right and wrong.
        foreach (var path in (string[])[
            $"/s/{recorded["code"]}", $"/api/slips/{recorded["code"]}", $"/s/{recorded["code"]}X", $"/api/slips/{recorded["code"]}X",
            "/desk?bowler=Quillfeather", "/api/inspections?bowler=Quillfeather&outcome=wrong", "/events/LANTERN/find?bowler=Quillfeather",
            "/events/Quillfeather", "/Quillfeather", "/api/inspections?serial=9QF31207&size=Marisol", "/desk/ball?serial=9QF31207"])
        {
            using var answer = await director.GetAsync(path);
        }

        var lines = station.Log.Lines;
        Assert.All(lines, line => Assert.All(secrets, secret => Assert.DoesNotContain(secret, line, StringComparison.OrdinalIgnoreCase)));
        foreach (var said in (string[])[
            "wrong name or passcode", "was refused unchecked", "it has no valid token", "by its headers it came from another site",
            "An Idempotency-Key was sent again",
            "A photograph of 21 bytes was refused for LANTERN-0001", "GET /s/{code} was answered 404",
            "GET (no such address) was answered 404",
            "POST /events/{event}/entries/add was answered 422", "A list of entries for LANTERN could not be read"])
        {
            Assert.True(
                lines.Any(line => line.Contains(said, StringComparison.Ordinal)), $"No line says \"{said}\":\n{string.Join('\n', lines)}");
        }
    }

    [Theory]
    [InlineData("/api/nothing")]
    [InlineData("/nothing")]
    public async Task Refusal_ShowsTheIdThatStandsBesideItsLine(string path)
    {
        await using var station = new StationFixture();
        using var client = await station.Client();

        using var answer = await client.GetAsync(path);
        var id = path.StartsWith("/api", StringComparison.Ordinal)
            ? (await answer.Content.ReadFromJsonAsync<JsonObject>())!["requestId"]!.GetValue<string>()
            : (await answer.Read()).QuerySelector(".request-id")!.TextContent;

        Assert.Matches("^[0-9A-HJKMNP-TV-Z]{8}$", id);
        Assert.Contains(station.Log.Lines, line => line.Contains(
            "GET (no such address) was answered 404", StringComparison.Ordinal) && line.Contains(id, StringComparison.Ordinal));
    }

    [Fact]
    public async Task RuleThatFails_IsLoggedWithItsErrorAndAnswersAHold()
    {
        await using var station = new StationFixture();
        await using var broken = station.WithWebHostBuilder(
            builder => builder.ConfigureServices(services => services.AddSingleton(Impossible())));
        using var client = broken.CreateClient();
        var sheet = SampleSheets.Legal();
        sheet["authority"] = "us-national";

        using var answer = await client.PostAsJsonAsync("/api/judge", sheet);

        var text = await answer.Content.ReadAsStringAsync();
        Assert.Contains("\"cause\":\"rule-error\"", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", text, StringComparison.Ordinal);
        Assert.Contains(station.Log.Lines, line => line.StartsWith("Error", StringComparison.Ordinal)
            && line.Contains("Rule model-name of us-national/", StringComparison.Ordinal)
            && line.Contains("Exception", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Health_StoreCannotBeWritten_LogsWhy()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();
        using (var connection = new SqliteConnection($"Data Source={Path.Combine(station.Folder, "inspect.db")};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "CREATE TRIGGER full BEFORE INSERT ON health BEGIN SELECT RAISE(ABORT, 'the disk is full'); END";
            command.ExecuteNonQuery();
        }

        using var answer = await client.GetAsync("/health");

        Assert.Contains(station.Log.Lines, line => line.Contains("The store cannot be written", StringComparison.Ordinal) && line.Contains(
            "the disk is full", StringComparison.Ordinal));
    }

    // The editions built in, with rules in them that cannot be worked out: they ask yes or no of a word.
    private static EditionLibrary Impossible() => new(RulesetBook.Open(null, [])!.Editions.All.Select(edition => edition with
    {
        Rules = [.. edition.Rules.Select(
            rule => rule is Rule.Stated { Id: "model-name" } stated ? stated with { Fact = Fact.Listed, Among = null } : rule)],
    }));

    private static async Task<HttpResponseMessage> Elsewhere(HttpClient client)
    {
        using var message = new HttpRequestMessage(HttpMethod.Post, "/api/judge") { Content = JsonContent.Create(SampleSheets.Legal()) };
        message.Headers.Add("Sec-Fetch-Site", "cross-site");
        return await client.SendAsync(message);
    }

    private static async Task<HttpResponseMessage> Photograph(HttpClient client, string number)
    {
        var page = await client.GetPage($"/inspections/{number}");
        using var form = new MultipartFormDataContent
        {
            { new StringContent(
                page.QuerySelector<IHtmlInputElement>("form.photograph input[name=__RequestVerificationToken]")!.Value),
                "__RequestVerificationToken" },
            { new ByteArrayContent(Encoding.ASCII.GetBytes("this is not a picture")), "photograph", "Marisol Quillfeather.jpg" },
        };
        return await client.PostAsync($"/inspections/{number}/photographs", form);
    }
}
