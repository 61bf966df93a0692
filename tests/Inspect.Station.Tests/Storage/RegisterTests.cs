using System.Text;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;
using Inspect.Station.Storage;
using Microsoft.Data.Sqlite;

namespace Inspect.Station.Tests.Storage;

/// <summary>The register in the store: bytes as hashed, nothing behind what does not check. The
/// behaviour is defined by this project.</summary>
public sealed class RegisterTests : IDisposable
{
    private readonly TestStore _store = new();

    public void Dispose() => _store.Dispose();

    [Fact]
    public async Task Append_Entry_IsStoredAsTheVeryBytesThatWereHashed()
    {
        var entry = await _store.Gate.Run(transaction => Register.Append(transaction, "ruling", 2, new JsonObject { ["text"] = "½ in" }));

        using var connection = _store.Database.OpenForReading();
        var body = Register.BodyOf(connection, 1);
        Assert.Equal(entry.Body, body);
        Assert.Equal(
            """{"kind":"ruling","prior":"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855","seq":1,"text":"½ in","v":2}""",
            Encoding.UTF8.GetString(entry.Body));
        Assert.Equal(MerkleTree.LeafHash(entry.Body), entry.LeafHash);
        Assert.Equal(entry.LeafHash, _store.Gate.Head.Edge.Root);
    }

    [Theory]
    [InlineData("UPDATE register_entry SET version = 2 WHERE seq = 2")]
    [InlineData("UPDATE register_entry SET body = x'7b7d'")]
    [InlineData("UPDATE register_entry SET leaf_hash = zeroblob(32) WHERE seq = 3")]
    [InlineData("UPDATE register_entry SET seq = 4 WHERE seq = 3")]
    [InlineData("UPDATE OR REPLACE register_entry SET seq = 1 WHERE seq = 3")]
    [InlineData("DELETE FROM register_entry WHERE seq = 3")]
    [InlineData("DELETE FROM register_entry")]
    [InlineData("INSERT OR REPLACE INTO register_entry VALUES (2, 'ruling', 1, zeroblob(32), x'7b7d')")]
    [InlineData("REPLACE INTO register_entry VALUES (3, 'ruling', 1, zeroblob(32), x'7b7d')")]
    [InlineData("INSERT OR IGNORE INTO register_entry VALUES (5, 'ruling', 1, zeroblob(32), x'7b7d')")]
    [InlineData("INSERT OR ROLLBACK INTO register_entry VALUES (2, 'ruling', 1, zeroblob(32), x'7b7d')")]
    [InlineData("INSERT INTO register_entry VALUES (2, 'ruling', 1, zeroblob(32), x'7b7d') ON CONFLICT (seq) DO UPDATE SET body = x'7b'")]
    [InlineData("INSERT INTO register_entry VALUES (3, 'ruling', 1, zeroblob(32), x'7b7d') ON CONFLICT DO UPDATE SET version = 9")]
    [InlineData("INSERT INTO register_entry VALUES (5, 'ruling', 1, zeroblob(32), x'7b7d')")]
    [InlineData("INSERT INTO register_entry VALUES (0, 'ruling', 1, zeroblob(32), x'7b7d')")]
    [InlineData("INSERT INTO register_entry VALUES (-1, 'ruling', 1, zeroblob(32), x'7b7d')")]
    [InlineData("INSERT INTO register_entry VALUES (NULL, 'ruling', 1, zeroblob(32), x'7b7d')")]
    [InlineData("INSERT INTO register_entry (kind, version, leaf_hash, body) VALUES ('ruling', 1, zeroblob(32), x'7b7d')")]
    [InlineData("INSERT INTO register_entry VALUES (4, 'rumour', 1, zeroblob(32), x'7b7d')")]
    [InlineData("INSERT INTO register_entry VALUES (4, 'ruling', 0, zeroblob(32), x'7b7d')")]
    [InlineData("INSERT INTO register_entry VALUES (4, 'ruling', 1, zeroblob(31), x'7b7d')")]
    [InlineData("INSERT INTO register_entry VALUES (4, 'ruling', 1, zeroblob(32), x'')")]
    [InlineData("INSERT INTO register_entry VALUES (4, 'ruling', 1, zeroblob(32), '{}')")]
    [InlineData("INSERT INTO register_entry SELECT seq + 4, kind, version, leaf_hash, body FROM register_entry")]
    public async Task Store_StatementThatWouldChangeTheRegister_IsRefused(string statement)
    {
        for (var running = 1; running <= 3; running++)
        {
            await _store.Record(running);
        }

        var before = Dump();

        await Assert.ThrowsAsync<SqliteException>(() => _store.Gate.Run(transaction =>
            transaction.Connection.Execute(statement, null, transaction.Transaction)));

        Assert.Equal(before, Dump());
        Assert.Equal(4, (await _store.Record(4)).Seq);
    }

    [Fact]
    public async Task Append_BodyWithoutACanonicalForm_RecordsNothing()
    {
        await Assert.ThrowsAsync<ArgumentException>(() => _store.Gate.Run(transaction =>
            Register.Append(transaction, "ruling", 1, new JsonObject { ["gross"] = 15.06 })));

        Assert.Equal(0, _store.Gate.Head.Size);
        Assert.Empty(Dump());
    }

    [Fact]
    public async Task Append_StoreThatGivesBackOtherBytes_RecordsNothing()
    {
        // A fault of the store, played by a trigger that spoils the row after it was written.
        await _store.Gate.Run(transaction => transaction.Connection.Execute(
            """
            DROP TRIGGER register_entry_never_changed;
            CREATE TRIGGER spoil AFTER INSERT ON register_entry BEGIN UPDATE register_entry SET body = x'7b7d' WHERE seq = new.seq; END;
            """,
            null,
            transaction.Transaction));

        var error = await Assert.ThrowsAsync<InvalidDataException>(() => _store.Record(1));

        Assert.Contains("nothing was recorded", error.Message, StringComparison.Ordinal);
        Assert.Empty(Dump());
    }

    [Fact]
    public async Task ReadHead_AfterARestart_IsTheHeadThatWas()
    {
        for (var running = 1; running <= 37; running++)
        {
            await _store.Record(running);
        }

        var before = _store.Gate.Head;
        _store.Restart();

        Assert.Equal((37, before.Edge.Root, before.Next), (_store.Gate.Head.Size, _store.Gate.Head.Edge.Root, _store.Gate.Head.Next));
        Assert.Equal(38, (await _store.Record(38)).Seq);
    }

    [Theory]
    [InlineData("UPDATE register_entry SET body = x'7b7d' WHERE seq = 3")]
    [InlineData("DELETE FROM register_entry WHERE seq = 2")]
    public async Task ReadHead_StoreChangedBehindItsTriggers_RefusesToStart(string statement)
    {
        for (var running = 1; running <= 3; running++)
        {
            await _store.Gate.Run(transaction => Register.Append(transaction, "ruling", 1, new JsonObject()));
        }

        await _store.Gate.Run(transaction => transaction.Connection.Execute(
            "DROP TRIGGER register_entry_never_changed; DROP TRIGGER register_entry_never_removed; " + statement,
            null,
            transaction.Transaction));

        _store.Gate.Dispose();

        Assert.Throws<CannotStartException>(() => new WriteGate(_store.Database, []));
    }

    [Fact]
    public async Task RootOf_Ranges_MakeProofsThatHold()
    {
        for (var running = 1; running <= 13; running++)
        {
            await _store.Record(running);
        }

        using var connection = _store.Database.OpenForReading();
        var root = _store.Gate.Head.Edge.Root;
        var earlier = Register.RootOf(connection, 0, 6);
        var inclusion = Proofs.Inclusion(4, 13, (start, count) => Register.RootOf(connection, start, count));
        var consistency = Proofs.Consistency(6, 13, (start, count) => Register.RootOf(connection, start, count));

        Assert.True(Proofs.CheckInclusion(MerkleTree.LeafHash(Register.BodyOf(connection, 5)!), 4, 13, root, inclusion));
        Assert.True(Proofs.CheckConsistency(6, earlier, 13, root, consistency));
        Assert.Throws<ArgumentOutOfRangeException>(() => Register.RootOf(connection, 10, 4));
    }

    private List<string> Dump()
    {
        using var connection = _store.Database.OpenForReading();
        return connection
            .Query<string>("SELECT seq || kind || version || hex(leaf_hash) || hex(body) FROM register_entry ORDER BY seq")
            .AsList();
    }
}
