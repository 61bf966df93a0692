using System.Net;
using System.Net.Http.Json;
using System.Net.Sockets;
using System.Text.Json.Nodes;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.CommandLine;

public sealed class StartTests : IDisposable
{
    private readonly string _folder = StationFixture.NewFolder();

    [Fact]
    public async Task Demo_WithoutAPasscode_PrintsOneThatSignsInAndStopsCleanly()
    {
        using var station = StationProcess.Start("--urls", "http://127.0.0.1:0", "--data", _folder, "--demo");
        var root = station.LineWith("The station is open at ").Split(' ')[^1];
        var passcode = station.LineWith("Sign in as inspector").Split(' ')[^1];
        using var client = new HttpClient { BaseAddress = new Uri(root) };

        using var answer = await client.PostAsJsonAsync("/api/session", new { name = "director", passcode });
        var files = (await client.GetPage("/")).QuerySelectorAll("link[href]").Select(link => link.GetAttribute("href"));
        var served = await Task.WhenAll(files.Select(file => client.GetAsync(file)));
        station.AskToStop();

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.All(served, file => Assert.Equal(
            (HttpStatusCode.OK, TimeSpan.FromDays(365)), (file.StatusCode, file.Headers.CacheControl!.MaxAge!.Value)));
        Assert.True(served.Length > 2);
        Assert.Equal(0, await station.Ended());
        Assert.Empty(Lines(station));
    }

    [Theory]
    [InlineData("text")]
    [InlineData("json")]
    public async Task Log_RefusedRequest_IsOneLineOnStandardErrorWithItsId(string form)
    {
        using var station = StationProcess.Start("--urls", "http://127.0.0.1:0", "--data", _folder, "--demo", "--log", form);
        using var client = new HttpClient { BaseAddress = new Uri(station.LineWith("The station is open at ").Split(' ')[^1]) };

        using var answer = await client.GetAsync("/api/slips/0123456789ABCX");
        station.AskToStop();

        Assert.Equal(0, await station.Ended());
        var id = (await answer.Content.ReadFromJsonAsync<JsonObject>())!["requestId"]!.GetValue<string>();
        var line = Assert.Single(Lines(station));
        Assert.Contains("GET /api/slips/{code} was answered 404", line, StringComparison.Ordinal);
        Assert.Contains(id, line, StringComparison.Ordinal);
        Assert.Equal(form == "json", line.StartsWith('{') && JsonNode.Parse(line)!["LogLevel"]!.GetValue<string>() == "Information");
    }

    [Fact]
    public void RealStation_Empty_PrintsASetUpCodeAndNoPasscode()
    {
        using var station = StationProcess.Start("--urls", "http://127.0.0.1:0", "--data", _folder);

        Assert.Matches("with the code [2-9A-Z]{4}-[2-9A-Z]{4}-[2-9A-Z]{4}$", station.LineWith("/set-up"));
    }

    [Fact]
    public async Task PortTaken_SaysSoInOneSentence()
    {
        using var taken = new TcpListener(IPAddress.Loopback, 0);
        taken.Start();
        var url = $"http://127.0.0.1:{((IPEndPoint)taken.LocalEndpoint).Port}";

        using var station = StationProcess.Start("--urls", url, "--data", _folder, "--demo");

        Assert.Equal(1, await station.Ended());
        Assert.Equal($"\"{url}\" is taken: another program listens there. Choose another address with --urls.", station.Errors);
    }

    [Fact]
    public async Task SecondStationOnTheFolder_IsRefused()
    {
        using var first = StationProcess.Start("--urls", "http://127.0.0.1:0", "--data", _folder, "--demo");
        first.LineWith("The station is open at ");

        using var second = StationProcess.Start("--urls", "http://127.0.0.1:0", "--data", _folder, "--demo");

        Assert.Equal(1, await second.Ended());
        Assert.StartsWith(
            $"The data folder \"{_folder}\" cannot be used: another station is running on it", second.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task FolderThatIsAFile_IsRefusedInOneSentence()
    {
        var file = Path.Combine(_folder, "file");
        await File.WriteAllTextAsync(file, "");

        using var station = StationProcess.Start("--data", Path.Combine(file, "inside"));

        Assert.Equal(1, await station.Ended());
        Assert.EndsWith("choose a folder that this user may write to with --data.", station.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', station.Errors);
    }

    [Fact]
    public async Task RulesThatCannotBeRead_AreRefused()
    {
        var rules = Path.Combine(_folder, "none");

        using var station = StationProcess.Start("--urls", "http://127.0.0.1:0", "--data", _folder, "--rulesets", rules);

        Assert.Equal(1, await station.Ended());
        Assert.StartsWith($"{rules}: $: This folder of rulesets cannot be read: ", station.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task UnknownVerb_IsRefused()
    {
        using var station = StationProcess.Start("juge", "sheet.json");

        Assert.Equal(3, await station.Ended());
        Assert.Equal("\"juge\" is not a verb of this program: \"help\" lists them.", station.Errors);
    }

    // What was merely slow is a matter of the machine.
    private static List<string> Lines(StationProcess station) =>
        [.. station.Errors.Split('\n').Where(line => line.Length > 0 && !line.Contains(" took ", StringComparison.Ordinal))];

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
