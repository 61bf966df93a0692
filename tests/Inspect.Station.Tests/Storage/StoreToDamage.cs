using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;
using Inspect.Station.CommandLine;
using Inspect.Station.Prove;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace Inspect.Station.Tests.Storage;

/// <summary>Folders of stations that were recorded in over HTTP, made once: one that was stopped, the same killed with its log beside it,
/// a backup that lacks the last third, and another station's. Each test damages a copy.</summary>
public sealed class StoreToDamage : IAsyncLifetime
{
    /// <summary>How many balls are recorded; more with INSPECT_DAMAGE=long.</summary>
    public static int Balls { get; } = IsLong ? 400 : 60;

    /// <summary>Whether many more places are damaged than in an ordinary run.</summary>
    public static bool IsLong => Environment.GetEnvironmentVariable("INSPECT_DAMAGE") == "long";

    private readonly string _root = StationFixture.NewFolder();

    public string Stopped => Path.Combine(_root, "stopped");

    public string Killed => Path.Combine(_root, "killed");

    public string Backup => Path.Combine(_root, "backup.db");

    public string Other => Path.Combine(_root, "other");

    /// <summary>Register and indexes as they were recorded.</summary>
    public string Whole { get; private set; } = "";

    public async Task InitializeAsync()
    {
        var folder = Directory.CreateDirectory(Path.Combine(_root, "live")).FullName;
        await using (var station = new StationFixture(folder: folder))
        {
            using var inspector = await station.Client("inspector");
            using var director = await station.Client("director");
            for (var i = 1; i <= Balls; i++)
            {
                await inspector.Recorded(i % 3 == 0 ? SampleSheets.TooHeavyOnTheLeft() : SampleSheets.Legal());
                if (i == Balls / 3)
                {
                    using var ruling = new HttpRequestMessage(HttpMethod.Post, "/api/inspections/LANTERN-0002/rulings");
                    ruling.Content = new StringContent("""{"decision":"withdraw","reason":"The wrong ball"}""", null, "application/json");
                    ruling.Headers.Add("Idempotency-Key", "ruling");
                    Assert.True((await director.SendAsync(ruling)).IsSuccessStatusCode);
                    await station.Services.GetRequiredService<StationKey>().Rotate(
                        station.Services.GetRequiredService<WriteGate>(), "p-1");
                    await station.Services.GetRequiredService<Checkpoints>().Keep(Inspect.Station.Access.PersonId.New());
                }

                if (i == Balls * 2 / 3)
                {
                    using var connection = Open(folder);
                    connection.Execute($"VACUUM INTO '{Backup}'");
                }
            }

            Copy(folder, Killed);
        }

        Copy(folder, Stopped);
        Whole = Dump(Stopped);
        await using (var another = new StationFixture(folder: Directory.CreateDirectory(Other).FullName))
        {
            using var inspector = await another.Client("inspector");
            for (var i = 0; i < Balls + 5; i++)
            {
                await inspector.Recorded(SampleSheets.Legal());
            }
        }
    }

    public Task DisposeAsync()
    {
        Directory.Delete(_root, recursive: true);
        return Task.CompletedTask;
    }

    /// <summary>A copy of a folder under a new name.</summary>
    public string CopyOf(string folder)
    {
        var copy = Path.Combine(_root, Path.GetRandomFileName());
        Copy(folder, copy);
        return copy;
    }

    /// <summary>Starts on a folder as the program does, up to the first check of every entry.</summary>
    internal static async Task<Started> Start(string folder, bool acceptsLoss = false, TimeProvider? time = null)
    {
        var services = new ServiceCollection();
        services.AddLogging();
        services.AddSingleton(time ?? StationClock.Only);
        Assert.True(DataFolder.TryHold(folder, out var held, out var fault), fault);
        using (held)
        {
            services.AddStorage(held, acceptsLoss);
            foreach (var index in ReindexVerb.Indexes().Where(index => index != RegisterLoss.Index))
            {
                services.AddSingleton(index);
            }

            await using var station = services.BuildServiceProvider();
            try
            {
                await Inspect.Station.CommandLine.Start.OpenStore(station);
            }
            catch (Exception error) when (Inspect.Station.CommandLine.Start.RefusalOf(error, folder) is { } refusal)
            {
                return new Started(refusal, [], []);
            }

            await station.GetServices<IHostedService>().OfType<BackgroundCheck>().Single().Run(CancellationToken.None);
            var state = station.GetRequiredService<StoreState>();
            return new Started(null, state.Faults, state.Notices);
        }
    }

    /// <summary>Changes a stopped store behind its triggers.</summary>
    public static void Change(string folder, Action<SqliteConnection> change)
    {
        using var connection = Open(folder);
        connection.Execute("PRAGMA foreign_keys = OFF");
        var triggers = connection.Query<(string Name, string Sql)>(
            "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' AND tbl_name IN ('register_entry', 'station_key')").ToList();
        triggers.ForEach(trigger => connection.Execute($"DROP TRIGGER {trigger.Name}"));
        change(connection);
        triggers.ForEach(trigger => connection.Execute(trigger.Sql));
    }

    /// <summary>Register and indexes in lines.</summary>
    public static string Dump(string folder)
    {
        using var connection = Open(folder);
        return string.Join('\n', ReindexVerb.Indexes().SelectMany(index => index.Tables).Append("register_entry").SelectMany(table =>
            connection.Query($"SELECT * FROM {table}").Select(row => $"{table}|" + string.Join('|',
                ((IEnumerable<KeyValuePair<string, object>>)row).Select(member => member.Value is byte[] bytes ? Convert.ToHexString(bytes)
                    : member.Value))).Order(StringComparer.Ordinal)));
    }

    /// <summary>Rewrites every entry from one on, as somebody would who has the folder and the program: places and hashes
    /// fit.</summary>
    public static void RewriteChain(string folder, long from, Action<JsonObject> change) => Change(folder, connection =>
    {
        var rows = connection.Query<(long Seq, byte[] Body)>("SELECT seq, body FROM register_entry ORDER BY seq").ToList();
        var head = RegisterHead.Empty;
        foreach (var (seq, body) in rows)
        {
            var bytes = body;
            if (seq >= from)
            {
                var entry = JsonNode.Parse(body)!.AsObject();
                change(entry);
                bytes = head.Next.Stamp(entry);
            }

            var leaf = MerkleTree.LeafHash(bytes);
            connection.Execute("UPDATE register_entry SET body = @bytes, leaf_hash = @leaf WHERE seq = @seq",
                new { bytes, leaf = leaf.ToArray(), seq });
            head = head.Append(leaf);
        }
    });

    private static SqliteConnection Open(string folder)
    {
        var connection = new SqliteConnection($"Data Source={Path.Combine(folder, "inspect.db")};Pooling=False");
        connection.Open();
        return connection;
    }

    private static void Copy(string from, string to)
    {
        foreach (var file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories)
            .Where(file => Path.GetFileName(file) != "station.lock"))
        {
            var target = Path.Combine(to, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(file, target);
        }
    }

    /// <summary>What came of a start.</summary>
    internal sealed record Started(string? Refusal, IReadOnlyList<string> Faults, IReadOnlyList<string> Notices)
    {
        public bool IsSilent => Refusal is null && Faults.Count == 0 && Notices.Count == 0;
    }
}
