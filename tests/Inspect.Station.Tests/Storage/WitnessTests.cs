using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.CommandLine;
using Inspect.Station.Prove;
using Inspect.Station.Storage;
using Inspect.Station.Tests.CommandLine;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Storage;

/// <summary>The witness beside the store: what a start says of a store that is shorter or other, what an accepted loss leaves behind, and
/// that no number is given twice. The behaviour is defined by this project.</summary>
public sealed class WitnessTests : IDisposable
{
    private readonly string _folder = StationFixture.NewFolder();

    private string Db => Path.Combine(_folder, "inspect.db");

    private string Witness => Path.Combine(_folder, StoreWitness.FileName);

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Record_Answered_IsInTheWitness()
    {
        await using var station = new StationFixture(folder: _folder);
        using var inspector = await station.Client("inspector");

        await inspector.Recorded(SampleSheets.Legal());
        await inspector.Recorded(SampleSheets.Legal());

        var head = station.Services.GetRequiredService<WriteGate>().Head;
        var said = StoreWitness.Read(_folder)!;
        Assert.Equal((2, head.Edge.Root), (said.Size, said.Root));
        Assert.Equal(station.Services.GetRequiredService<StationKey>().Public.Fingerprint, said.Key);
    }

    /// <summary>A folder of a program that wrote no witness starts as it is, and has one from then on.</summary>
    [Fact]
    public async Task Start_OlderFolderWithoutAWitness_BeginsOne()
    {
        await Record(3);
        File.Delete(Witness);
        StoreToDamage.Change(_folder, connection => connection.Execute("DELETE FROM witness_begun"));

        Assert.True((await StoreToDamage.Start(_folder)).IsSilent);

        Assert.Equal(3, StoreWitness.Read(_folder)!.Size);
        File.Delete(Witness);
        Assert.StartsWith("The witness of the store, inspect.witness, is missing, so nobody can say whether the store is whole (in \"",
            (await StoreToDamage.Start(_folder)).Refusal, StringComparison.Ordinal);
    }

    /// <summary>An older folder has no witness, and its kept checkpoints know its beginning.</summary>
    [Fact]
    public async Task Start_ChainRewrittenBeforeAKeptCheckpoint_IsRefusedOnceItsLossIsAcceptedNoMore()
    {
        await using (var station = new StationFixture(folder: _folder))
        {
            using var inspector = await station.Client("inspector");
            await inspector.Recorded(SampleSheets.Legal());
            await inspector.Recorded(SampleSheets.Legal());
            await station.Services.GetRequiredService<Checkpoints>().Keep(PersonId.New());
            await inspector.Recorded(SampleSheets.Legal());
        }

        StoreToDamage.RewriteChain(_folder, 2, entry => entry["verdict"]!["outcome"] = "fail");
        StoreToDamage.Change(_folder, connection => connection.Execute("DELETE FROM witness_begun"));
        File.Delete(Witness);

        Assert.StartsWith("The first 2 entries of the register are not those that its kept checkpoint knows: an entry was altered, "
            + "or this is another store (in \"", (await StoreToDamage.Start(_folder)).Refusal, StringComparison.Ordinal);
        Assert.Null((await StoreToDamage.Start(_folder, acceptsLoss: true)).Refusal);
        Assert.Single((await StoreToDamage.Start(_folder)).Notices);
    }

    /// <summary>A crash between the commit and the witness.</summary>
    [Fact]
    public async Task Start_StoreAheadOfItsWitness_CatchesUp()
    {
        await Record(2);
        var earlier = await File.ReadAllBytesAsync(Witness);
        await Record(2);
        await File.WriteAllBytesAsync(Witness, earlier);

        Assert.True((await StoreToDamage.Start(_folder)).IsSilent);

        Assert.Equal(4, StoreWitness.Read(_folder)!.Size);
    }

    /// <summary>Numbers that were printed since a backup are not given again, however often it is put back.</summary>
    [Fact]
    public async Task Start_BackupPutBack_IsRefusedUntilTheLossIsAcceptedAndLeavesOutItsNumbers()
    {
        await Record(3);
        var backup = await File.ReadAllBytesAsync(Db);
        Assert.Equal("LANTERN-0007", (await Record(4))[^1]);
        await File.WriteAllBytesAsync(Db, backup);

        var refused = await StoreToDamage.Start(_folder);
        Assert.StartsWith("The register has 3 entries, and its witness knows 7: entries 4 to 7 are missing (in \"", refused.Refusal,
            StringComparison.Ordinal);
        Assert.EndsWith("or start once with --accept-loss; the loss then stands in the register, and numbers that may be on slips are not "
            + "given again.", refused.Refusal, StringComparison.Ordinal);
        Assert.Equal(3, Entries().Count);

        var accepted = await StoreToDamage.Start(_folder, acceptsLoss: true);
        Assert.Null(accepted.Refusal);
        Assert.StartsWith("The register has 3 entries, and its witness knows 7: entries 4 to 7 are missing. This was accepted on ",
            Assert.Single(accepted.Notices), StringComparison.Ordinal);
        var entry = JsonNode.Parse(Entries()[^1])!;
        Assert.Equal(("loss", 4L, 7L), ((string)entry["kind"]!, (long)entry["gap"]!, (long)entry["size"]!));
        Assert.Equal(["LANTERN-0008", "LANTERN-0009"], await Record(2));

        await File.WriteAllBytesAsync(Db, backup);
        Assert.NotNull((await StoreToDamage.Start(_folder)).Refusal);
        Assert.Null((await StoreToDamage.Start(_folder, acceptsLoss: true)).Refusal);
        var next = Assert.Single(await Record(1));
        Assert.True(string.CompareOrdinal(next, "LANTERN-0009") > 0, next);
    }

    [Theory]
    [InlineData(false, "LANTERN-0004")]
    [InlineData(true, "LANTERN-100001")]
    public async Task Start_KeyWithoutAStore_BeginsANewOneOnlyWhenTheLossIsAccepted(bool withoutWitness, string next)
    {
        await Record(3);
        File.Delete(Db);
        if (withoutWitness)
        {
            File.Delete(Witness);
        }

        using (var refused = StationProcess.Start("--urls", "http://127.0.0.1:0", "--data", _folder))
        {
            Assert.Equal(1, await refused.Ended());
            Assert.StartsWith($"The store, inspect.db, is missing (in \"{_folder}\"): put back", refused.Errors, StringComparison.Ordinal);
            Assert.False(File.Exists(Db));
        }

        using (var accepted = StationProcess.Start("--urls", "http://127.0.0.1:0", "--data", _folder, "--demo", "--accept-loss"))
        {
            accepted.LineWith("The store, inspect.db, is missing. This was accepted on ");
            accepted.LineWith("The station is open at ");
            accepted.AskToStop();
            Assert.Equal(0, await accepted.Ended());
        }

        Assert.Equal(next, Assert.Single(await Record(1)));
    }

    [Fact]
    public async Task Record_IndexRowsDeleted_GivesNoNumberTwice()
    {
        await Record(3);
        StoreToDamage.Change(_folder, connection => connection.Execute("DELETE FROM inspection_index"));

        Assert.Equal(["LANTERN-0004", "LANTERN-0005"], await Record(2));

        // Those who deleted them while the station ran.
        await using var station = new StationFixture(folder: _folder);
        using var inspector = await station.Client("inspector");
        Assert.Equal("LANTERN-0006", (await inspector.Recorded(SampleSheets.Legal()))["number"]!.GetValue<string>());
        await station.Services.GetRequiredService<WriteGate>().Run(write => write.Connection.Execute(
            "PRAGMA defer_foreign_keys = ON; DELETE FROM inspection_rule; DELETE FROM inspection_model; "
                + "DELETE FROM inspection_index WHERE seq = 6",
            null, write.Transaction));
        Assert.Equal("LANTERN-0007", (await inspector.Recorded(SampleSheets.Legal()))["number"]!.GetValue<string>());
    }

    /// <summary>A register that has a number twice, as one could be recorded before: said in a sentence.</summary>
    [Fact]
    public async Task Reindex_NumberTwice_IsRefusedInASentence()
    {
        await Record(3);
        StoreToDamage.RewriteChain(_folder, 3, entry => entry["number"] = "LANTERN-0002");
        File.Delete(Witness);
        StoreToDamage.Change(_folder, connection => connection.Execute("DELETE FROM witness_begun"));
        using var error = new StringWriter();

        Assert.Equal(3, ReindexVerb.Run(["--data", _folder], TextWriter.Null, error));

        Assert.StartsWith("Entry 3 does not fit into the index of inspections (", error.ToString(), StringComparison.Ordinal);
        Assert.Contains("The indexes were left as they are.", error.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Start_ClockBeforeTheLastEntry_SaysSo()
    {
        await Record(1);

        var started = await StoreToDamage.Start(_folder, time: new SteppedTime(StationClock.Only.GetUtcNow().AddDays(-2)));

        Assert.StartsWith("The clock of this machine says 2026-11-19 ", Assert.Single(started.Notices), StringComparison.Ordinal);
    }

    /// <summary>What was recorded is shown only as it was recorded.</summary>
    [Fact]
    public async Task Get_DamagedEntry_Is503AndItsVerdictIsNowhere()
    {
        await Record(3);
        StoreToDamage.Change(_folder, connection =>
        {
            var body = connection.QuerySingle<string>("SELECT CAST(body AS TEXT) FROM register_entry WHERE seq = 2");
            var altered = body.Replace("\"outcome\":\"pass\"", "\"outcome\":\"fail\"", StringComparison.Ordinal);
            Assert.NotEqual(body, altered);
            connection.Execute("UPDATE register_entry SET body = CAST(@altered AS BLOB) WHERE seq = 2", new { altered });
        });
        await using var station = new StationFixture(folder: _folder);
        using var director = await station.Client("director");

        foreach (var path in new[] { "/api/inspections/LANTERN-0002", "/inspections/LANTERN-0002", "/api/register/entries/2.json",
            "/inspections/LANTERN-0002/slip.pdf", "/events/LANTERN/charts" })
        {
            using var answer = await director.GetAsync(path);
            var said = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
            if (answer.StatusCode != HttpStatusCode.NotFound)
            {
                Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
                Assert.Contains("Entry 2 of the register is damaged", said, StringComparison.Ordinal);
                Assert.DoesNotContain("outcome", said, StringComparison.Ordinal);
            }
        }

        using var sound = await director.GetAsync("/api/inspections/LANTERN-0001");
        Assert.Equal(HttpStatusCode.OK, sound.StatusCode);
        using var health = await director.GetAsync("/health");
        Assert.Equal(HttpStatusCode.ServiceUnavailable, health.StatusCode);
        Assert.Contains("Entry 2 of the register is damaged",
            await Detail(health), StringComparison.Ordinal);
        Assert.Contains(
            "Entry 2 of the register is damaged", (await director.GetPage("/desk")).Body!.TextContent, StringComparison.Ordinal);

        // A paper that agrees with the hashes is not told that all is well.
        var root = station.Services.GetRequiredService<WriteGate>().Head.Edge.Root.ToString();
        Assert.Contains("The hashes agree, but the store is damaged",
            (await director.GetPage($"/desk/register?size=3&root={root[..12]}")).Body!.TextContent, StringComparison.Ordinal);

        // Other balls are recorded all the same.
        using var inspector = await station.Client("inspector");
        Assert.Equal("LANTERN-0004", (await inspector.Recorded(SampleSheets.Legal()))["number"]!.GetValue<string>());
    }

    [Theory]
    [InlineData("folder moved")]
    [InlineData("file replaced")]
    public async Task Record_StoreNotInItsPlace_Is503UntilItIsBack(string what)
    {
        var inside = Directory.CreateDirectory(Path.Combine(_folder, "station")).FullName;
        await using var station = new StationFixture(folder: inside);
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(SampleSheets.Legal());
        var (store, aside) = (Path.Combine(inside, "inspect.db"), Path.Combine(_folder, "aside"));
        Action<string, string> move = what == "folder moved" ? Directory.Move : File.Move;
        var moved = what == "folder moved" ? inside : store;
        move(moved, aside);
        if (what == "file replaced")
        {
            File.Copy(aside, store);
        }

        using var refused = await inspector.Record(SampleSheets.Request(SampleSheets.Legal()));
        using var anyone = await station.Client();
        using var health = await anyone.GetAsync("/health");

        if (what == "file replaced")
        {
            File.Delete(store);
        }

        move(aside, moved);
        Assert.Equal((HttpStatusCode.ServiceUnavailable, HttpStatusCode.ServiceUnavailable), (refused.StatusCode, health.StatusCode));
        const string Moved = "The store is no longer in its place: ";
        Assert.StartsWith(Moved, await Detail(health), StringComparison.Ordinal);

        // Whoever reads before writing finds no file to open.
        Assert.StartsWith(what == "folder moved" ? "The store cannot be opened or written" : Moved, await Detail(refused),
            StringComparison.Ordinal);

        Assert.Equal("LANTERN-0002", (await inspector.Recorded(SampleSheets.Legal()))["number"]!.GetValue<string>());
        Assert.Equal(2, station.Services.GetRequiredService<WriteGate>().Head.Size);
    }

    [Fact]
    public async Task Record_DiskFull_Is503AndSaysSo()
    {
        await using var station = new StationFixture(folder: _folder);
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(SampleSheets.Legal());
        var gate = station.Services.GetRequiredService<WriteGate>();

        // The engine's own bound on the pages of the store stands for the disk.
        var pages = await gate.Run(write => write.Connection.ExecuteScalar<long>("PRAGMA page_count", null, write.Transaction));
        await gate.Run(write => write.Connection.ExecuteScalar<long>($"PRAGMA max_page_count = {pages}", null, write.Transaction));
        HttpResponseMessage answer;
        do
        {
            answer = await inspector.Record(SampleSheets.Request(SampleSheets.Legal()));
        }
        while (answer.StatusCode == HttpStatusCode.Created);

        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.StartsWith("The disk that the store is on is full",
            await Detail(answer), StringComparison.Ordinal);
    }

    // Result codes of SQLite, https://sqlite.org/rescode.html
    [Theory]
    [InlineData(10, "The disk that the store is on does not read or write")]
    [InlineData(13, "The disk that the store is on is full")]
    [InlineData(11, "The store is damaged")]
    [InlineData(19, null)]
    public void SentenceOf_ResultCode_SaysWhatTheDiskDoes(int code, string? sentence)
    {
        var said = Database.SentenceOf(new SqliteException("", code));

        Assert.Equal(sentence is null, said is null);
        Assert.StartsWith(sentence ?? "", said ?? "", StringComparison.Ordinal);
    }

    [Fact]
    public async Task Start_WitnessThatCannotBeWritten_IsRefusedInASentence()
    {
        await Record(1);
        File.Delete(Witness);
        StoreToDamage.Change(_folder, connection => connection.Execute("DELETE FROM witness_begun"));
        Directory.CreateDirectory(Witness);

        Assert.Contains("The witness of the store, inspect.witness, cannot be written (", (await StoreToDamage.Start(_folder)).Refusal,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task Desk_AfterTheFirstCheck_SaysThatTheRegisterIsSound()
    {
        await Record(2);
        await using var station = new StationFixture(folder: _folder);
        using var director = await station.Client("director");
        using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(1));
        var state = station.Services.GetRequiredService<StoreState>();
        while (!state.Check.Contains("sound", StringComparison.Ordinal))
        {
            await Task.Delay(20, patience.Token);
        }

        Assert.Contains(
            "The register was sound at 2026-11-21 ", (await director.GetPage("/desk")).Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains(": 2 entries.", state.Check, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Dispose_ReadersWaiting_LeavesNoLog()
    {
        using var database = new Database(Db);
        Migrator.Migrate(database);
        using (var gate = new WriteGate(database, []))
        {
            await gate.Run(write => Register.Append(write, "ruling", 1, []));
            database.OpenForReading().Dispose();
        }

        Assert.False(File.Exists(Db + "-wal"));
    }

    private static async Task<string> Detail(HttpResponseMessage answer) =>
        (await answer.Content.ReadFromJsonAsync<JsonObject>())!["detail"]!.GetValue<string>();

    private async Task<List<string>> Record(int balls)
    {
        await using var station = new StationFixture(folder: _folder);
        using var inspector = await station.Client("inspector");
        var numbers = new List<string>();
        for (var i = 0; i < balls; i++)
        {
            numbers.Add((await inspector.Recorded(SampleSheets.Legal()))["number"]!.GetValue<string>());
        }

        return numbers;
    }

    private List<byte[]> Entries()
    {
        using var connection = new SqliteConnection($"Data Source={Db};Pooling=False");
        connection.Open();
        return connection.Query<byte[]>("SELECT body FROM register_entry ORDER BY seq").ToList();
    }
}
