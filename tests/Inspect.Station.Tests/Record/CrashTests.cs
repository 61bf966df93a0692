using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.CommandLine;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Record;

/// <summary>A station killed in the middle of work: what it acknowledged is there. This shows survival of a crash of
/// the program, not of a power cut.</summary>
public sealed class CrashTests
{
    private const int Burst = 200;
    private const string Passcode = "a passcode for one test";

    [Fact]
    public async Task Kill_DuringABurstOfRecordings_LosesNothingAcknowledged()
    {
        var folder = StationFixture.NewFolder();
        try
        {
            var acknowledged = new ConcurrentDictionary<string, byte[]>();
            await RecordUntilKilled(folder, acknowledged);
            Assert.InRange(acknowledged.Count, Burst / 4, Burst);

            using var station = StationProcess.Start(Arguments(folder), Passcode);
            using var inspector = await SignedIn(station);
            foreach (var (key, answer) in acknowledged)
            {
                // The same request again is answered from what was kept, with the same bytes: it was not lost, and is not recorded twice.
                using var again = await inspector.RecordText(RequestOf(key), key);
                Assert.Equal(HttpStatusCode.OK, again.StatusCode);
                Assert.Equal(answer, await again.Content.ReadAsByteArrayAsync());
            }

            AssertWhole(folder, acknowledged.Values);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task RecordUntilKilled(string folder, ConcurrentDictionary<string, byte[]> acknowledged)
    {
        using var station = StationProcess.Start(Arguments(folder), Passcode);
        using var inspector = await SignedIn(station);
        using var gate = new SemaphoreSlim(8);
        var sendings = Enumerable.Range(0, Burst).Select(async i =>
        {
            await gate.WaitAsync();
            try
            {
                using var answer = await inspector.RecordText(RequestOf($"ball-{i}"), $"ball-{i}");
                if (answer.StatusCode == HttpStatusCode.Created)
                {
                    acknowledged[$"ball-{i}"] = await answer.Content.ReadAsByteArrayAsync();
                }
            }
            catch (HttpRequestException)
            {
                // Killed: nothing was acknowledged, so nothing is promised.
            }
            finally
            {
                gate.Release();
            }

            if (acknowledged.Count >= Burst / 2)
            {
                station.KillHard();
            }
        });
        await Task.WhenAll(sendings);
    }

    /// <summary>The register checks from the first entry to the last, every index row has its entry, and nothing is half there.</summary>
    private static void AssertWhole(string folder, IEnumerable<byte[]> answers)
    {
        var database = new Database(Path.Combine(folder, "inspect.db"), keepsOpen: false);
        using var connection = database.OpenForReading();
        var bodies = connection.Query<byte[]>("SELECT body FROM register_entry ORDER BY seq").AsList();
        var head = RegisterHead.Empty;
        foreach (var body in bodies)
        {
            Assert.True(EntryPlace.TryRead(body, out var place));
            Assert.Equal(head.Next, place);
            Assert.True(CanonicalJson.IsCanonical(body));
            head = head.Append(MerkleTree.LeafHash(body));
        }

        var numbers = bodies.Select(body => JsonNode.Parse(body)!["number"]!.GetValue<string>()).ToHashSet();
        Assert.Equal(
            bodies.Count, connection.ExecuteScalar<long>("SELECT count(*) FROM inspection_index i JOIN register_entry r ON r.seq = i.seq"));
        Assert.Equal(bodies.Count, connection.ExecuteScalar<long>("SELECT count(*) FROM idempotency"));
        Assert.Equal("ok", connection.ExecuteScalar<string>("PRAGMA integrity_check"));
        Assert.All(answers, answer => Assert.Contains(JsonNode.Parse(answer)!["number"]!.GetValue<string>(), numbers));
    }

    private static string[] Arguments(string folder) => ["--data", folder, "--demo", "--urls", "http://127.0.0.1:0"];

    private static string RequestOf(string serial)
    {
        var sheet = SampleSheets.Legal();
        sheet["ball"]!["serial"] = serial;
        // This station is a process with the real clock, and the demo's days are around its today.
        sheet["play"] = DemoEvent.Today(TimeProvider.System).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        return SampleSheets.Request(sheet).ToJsonString();
    }

    private static async Task<HttpClient> SignedIn(StationProcess station)
    {
        var line = station.LineWith("http://127.0.0.1:");
        var address = line[line.IndexOf("http://", StringComparison.Ordinal)..].Split(' ')[0].TrimEnd('/', '.', ',');
        var client = new HttpClient(new SocketsHttpHandler { CookieContainer = new CookieContainer() }) { BaseAddress = new Uri(address) };
        using var answer = await client.PostAsync("/api/session", new StringContent(
            new JsonObject { ["name"] = "inspector", ["passcode"] = Passcode }.ToJsonString(), Encoding.UTF8, "application/json"));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return client;
    }
}
