using System.IO.Compression;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Station.CommandLine;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Data.Sqlite;

namespace Inspect.Station.Tests.Storage;

/// <summary>A store that an earlier program wrote opens, verifies, replays and answers to the same bytes.</summary>
/// <remarks>
/// The store in EarlierStore was written on 27 November 2026 by the program as it stood before bodies had a version 2 and
/// before the station had floors: 28 inspections of the demo's event (passes, fails, holds, a second measurement, a house
/// ball, metric readings, an observation turned on the scale), four rulings, a photograph and an issued report. Beside it
/// stand its export and what that program answered.
/// </remarks>
public sealed class EarlierStoreTests : IDisposable
{
    private static readonly string Kept = Path.Combine(Repository.Root, "tests", "Inspect.Station.Tests", "Storage", "EarlierStore");

    private static readonly string[] Indexes =
    [
        "inspection_index", "inspection_rule", "inspection_instrument", "inspection_model", "tag_index", "ball_name_index", "ruling_index",
        "confirmation_index", "check_index", "photograph_index", "report_index",
    ];

    private readonly string _folder = StationFixture.NewFolder();

    public EarlierStoreTests()
    {
        File.WriteAllBytes(Path.Combine(_folder, "inspect.db"), Unpacked("inspect.db.gz"));
        var key = Path.Combine(_folder, "station-key.pem");
        File.Copy(Path.Combine(Kept, "station-key.pem"), key);
        if (!OperatingSystem.IsWindows())
        {
            // A fresh checkout may be read by others; the station takes no such key.
            File.SetUnixFileMode(key, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Open_EarlierStore_AnswersAndExportsAsBefore()
    {
        var answers = JsonNode.Parse(Unpacked("answers.json.gz"))!;
        await using var station = new StationFixture(demo: false, folder: _folder);
        using var director = await station.Client();
        using var signedIn = await director.PostAsJsonAsync("/api/session", new { name = "director", passcode = "old-store-pass" });
        Assert.True(signedIn.IsSuccessStatusCode);

        foreach (var (number, answer) in answers["inspections"]!.AsObject())
        {
            Assert.Equal(answer!.GetValue<string>(), await director.GetStringAsync($"/api/inspections/{number}"));
        }

        foreach (var (code, answer) in answers["slips"]!.AsObject())
        {
            Assert.Equal(answer!.GetValue<string>(), await director.GetStringAsync($"/api/slips/{code}"));
        }

        // The last line is the checkpoint, whose signature is another one each time.
        var export = await director.GetByteArrayAsync("/api/register.jsonl");
        Assert.Equal(Bodies(Unpacked("register.jsonl.gz")), Bodies(export));
        Assert.Equal(1 + 28, (await director.GetStringAsync("/api/inspections.csv?event=LANTERN")).TrimEnd().Split('\n').Length);
    }

    [Fact]
    public void Migrate_EarlierStore_KeepsItsAnswersAndWouldMakeTheSame()
    {
        var database = new Database(Path.Combine(_folder, "inspect.db"), keepsOpen: false);
        var before = Answers(database, "SELECT person || key, body FROM idempotency");

        Migrator.Migrate(database);

        Assert.Equal(before, Answers(database, "SELECT person || key, body FROM idempotency"));
        var again = Answers(database, "SELECT k.person || k.key, r.body FROM idempotency k JOIN register_entry r ON r.seq = k.seq");
        Assert.Equal(28, again.Count);
        Assert.All(again, record => Assert.Equal(
            Encoding.UTF8.GetString(before[record.Key]), Encoding.UTF8.GetString(Inspections.Answer(InspectionBody.Read(record.Value)))));
    }

    [Fact]
    public void Verify_EarlierExport_IsSound()
    {
        using var output = new StringWriter();

        Assert.Equal(0, VerifyVerb.Run([Written("register.jsonl.gz")], output, TextWriter.Null));
        Assert.StartsWith("The 34 entries agree with their checkpoint", output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Replay_EarlierExport_SaysTheSame()
    {
        using var output = new StringWriter();

        Assert.Equal(0, ReplayVerb.Run([Written("register.jsonl.gz")], Stream.Null, output, TextWriter.Null));
        Assert.Equal(File.ReadAllText(Path.Combine(Kept, "replay.json")), output.ToString());
    }

    [Fact]
    public void Reindex_EarlierStore_GivesTheSameRows()
    {
        var before = Dump(null);

        Assert.Equal(0, ReindexVerb.Run(["--data", _folder], TextWriter.Null, TextWriter.Null));
        Assert.Equal(before, Dump(before));
    }

    private static SortedDictionary<string, byte[]> Answers(Database database, string sql)
    {
        using var connection = database.OpenForReading();
        return new(connection.Query<(string Key, byte[] Body)>(sql).ToDictionary(row => row.Key, row => row.Body), StringComparer.Ordinal);
    }

    private static string[] Bodies(byte[] export) => Encoding.UTF8.GetString(export).TrimEnd('\n').Split('\n')[..^1];

    private static byte[] Unpacked(string file)
    {
        using var packed = new GZipStream(File.OpenRead(Path.Combine(Kept, file)), CompressionMode.Decompress);
        using var unpacked = new MemoryStream();
        packed.CopyTo(unpacked);
        return unpacked.ToArray();
    }

    private string Written(string file)
    {
        var path = Path.Combine(_folder, Path.GetFileNameWithoutExtension(file));
        File.WriteAllBytes(path, Unpacked(file));
        return path;
    }

    /// <summary>The rows of every index, by the columns it had before where some are given.</summary>
    private SortedDictionary<string, string> Dump(SortedDictionary<string, string>? before)
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(_folder, "inspect.db")};Pooling=False");
        connection.Open();
        var dumped = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (var table in Indexes)
        {
            var columns = before?.Keys.Single(key => key.StartsWith($"{table}(", StringComparison.Ordinal))[(table.Length + 1)..^1]
                ?? string.Join(", ", connection.Query<string>($"SELECT name FROM pragma_table_info('{table}')"));
            var rows = connection.Query($"SELECT {columns} FROM {table}")
                .Select(row => string.Join('|', ((IEnumerable<KeyValuePair<string, object?>>)row).Select(member => member.Value)));
            dumped[$"{table}({columns})"] = string.Join('\n', rows.Order(StringComparer.Ordinal));
        }

        return dumped;
    }
}
