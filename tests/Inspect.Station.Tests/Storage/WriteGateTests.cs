using System.Collections.Concurrent;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;
using Inspect.Station.Storage;
using Microsoft.Data.Sqlite;

namespace Inspect.Station.Tests.Storage;

public sealed class WriteGateTests : IDisposable
{
    private readonly TestStore _store = new();

    public void Dispose() => _store.Dispose();

    [Fact]
    public async Task Run_EightCallersFiftyTimesEach_RecordsEveryOneOnceAndWithoutAGap()
    {
        var positions = new ConcurrentBag<EntryPosition>();
        await Task.WhenAll(Enumerable.Range(0, 8).Select(caller => Task.Run(async () =>
        {
            for (var i = 0; i < 50; i++)
            {
                positions.Add(await _store.Gate.Run(transaction =>
                    Register.Append(transaction, "ruling", 1, new JsonObject { ["caller"] = caller, ["turn"] = i })));
            }
        })));

        Assert.Equal(Enumerable.Range(1, 400).Select(seq => (long)seq), positions.Select(position => position.Seq).Order());
        using var connection = _store.Database.OpenForReading();
        var bodies = Enumerable.Range(1, 400).Select(seq => Register.BodyOf(connection, seq)!).ToList();
        var turns = bodies.Select(body => JsonNode.Parse(body)!).Select(body => ((int)body["caller"]!, (int)body["turn"]!));
        Assert.Equal(400, turns.Distinct().Count());
        Assert.Equal(MerkleTree.Root(bodies.Select(body => MerkleTree.LeafHash(body))), _store.Gate.Head.Edge.Root);
    }

    [Fact]
    public async Task Run_CallersThatWaitTogether_ShareACommitWithASavepointEach()
    {
        using var open = new ManualResetEventSlim();
        var first = Hold(open);
        var counts = Enumerable.Range(0, 20)
            .Select(caller => _store.Gate.Run(transaction =>
            {
                Register.Append(transaction, "ruling", 1, new JsonObject { ["caller"] = caller });
                // Seen from outside, nothing of the shared transaction is there before its commit.
                using var outside = _store.Database.OpenForReading();
                return outside.ExecuteScalar<long>("SELECT count(*) FROM register_entry");
            }))
            .ToList();

        open.Set();

        Assert.True(await first);
        Assert.All(await Task.WhenAll(counts), count => Assert.Equal(0, count));
        Assert.Equal(20, _store.Gate.Head.Size);
    }

    [Fact]
    public async Task Run_OneCallerThatFailsAmongMany_UndoesThatCallerOnly()
    {
        using var open = new ManualResetEventSlim();
        var first = Hold(open);
        var turns = Enumerable.Range(0, 20)
            .Select(caller => _store.Gate.Run(transaction =>
            {
                var entry = Register.Append(transaction, "ruling", 1, new JsonObject { ["caller"] = caller });
                transaction.Connection.Execute(
                    "INSERT INTO register_kind (kind) VALUES (@kind)", new { kind = $"kind-{caller}" }, transaction.Transaction);
                return caller == 7 ? throw new InvalidOperationException("caller 7") : entry;
            }))
            .ToList();

        open.Set();
        await first;

        var error = await Assert.ThrowsAsync<InvalidOperationException>(() => turns[7]);
        Assert.Equal("caller 7", error.Message);
        var entries = await Task.WhenAll(turns.Where((_, caller) => caller != 7));
        Assert.Equal(Enumerable.Range(1, 19).Select(seq => (long)seq), entries.Select(entry => entry.Seq));
        using var connection = _store.Database.OpenForReading();
        Assert.Equal(19, connection.ExecuteScalar<long>("SELECT count(*) FROM register_kind WHERE kind LIKE 'kind-%'"));
        Assert.Equal(0, connection.ExecuteScalar<long>("SELECT count(*) FROM register_kind WHERE kind = 'kind-7'"));
        Assert.Equal(Register.RootOf(connection, 0, 19), _store.Gate.Head.Edge.Root);
    }

    [Fact]
    public async Task Run_CommitThatFails_FailsAllItsCallersAndKeepsTheHead()
    {
        await _store.Record(1);
        var head = _store.Gate.Head;
        using var open = new ManualResetEventSlim();
        var first = Hold(open);
        // A foreign key that is checked at the commit only, and broken.
        var good = _store.Gate.Run(transaction => Register.Append(transaction, "ruling", 1, new JsonObject()));
        var bad = _store.Gate.Run(transaction => transaction.Connection.Execute(
            "PRAGMA defer_foreign_keys = ON; INSERT INTO inspection_rule (rule, outcome, seq, event, by_person, verdict) VALUES "
                + "('diameter', 'fail', 99, 'OPEN', 'x', 'fail');",
            null,
            transaction.Transaction));

        open.Set();

        await first;
        await Assert.ThrowsAsync<SqliteException>(() => good);
        await Assert.ThrowsAsync<SqliteException>(() => bad);
        Assert.Equal(head, _store.Gate.Head);
        Assert.Equal(2, (await _store.Record(2)).Seq);
    }

    /// <summary>A commit that failed for its callers may be on the disk all the same: another gate on the store plays that here.</summary>
    [Fact]
    public async Task Run_StoreThatWentOnBehindAFailedCommit_IsReadAgain()
    {
        await _store.Record(1);
        await FailACommit();
        using (var landed = new WriteGate(_store.Database, []))
        {
            await landed.Run(write => Register.Append(write, "ruling", 1, new JsonObject()));
        }

        Assert.Equal(3, (await _store.Record(2)).Seq);
        Assert.Equal(1, _store.Gate.FailedCommits);
    }

    [Fact]
    public async Task Run_StoreThatLostAnAnsweredEntryBehindAFailedCommit_RecordsNothing()
    {
        await _store.Record(1);
        await _store.Record(2);
        await FailACommit();
        StoreToDamage.Change(_store.Folder, connection => connection.Execute("DELETE FROM register_entry WHERE seq = 2"));

        await Assert.ThrowsAsync<StoreFaultException>(() => _store.Record(3));
    }

    private Task<SqliteException> FailACommit() => Assert.ThrowsAsync<SqliteException>(() => _store.Gate.Run(
        transaction => transaction.Connection.Execute(
        "PRAGMA defer_foreign_keys = ON; INSERT INTO inspection_rule (rule, outcome, seq, event, by_person, verdict) VALUES "
            + "('diameter', 'fail', 99, 'OPEN', 'x', 'fail');",
        null,
        transaction.Transaction)));

    [Fact]
    public async Task Run_FromInsideTheGate_IsRefusedRatherThanWaitingForever() =>
        await Assert.ThrowsAsync<InvalidOperationException>(() =>
            _store.Gate.Run(_ => _store.Gate.Run(_ => 0).GetAwaiter().GetResult()));

    [Fact]
    public async Task Dispose_WhileCallersWait_FinishesThemAndLetsNobodyElseIn()
    {
        var turns = Enumerable.Range(1, 30).Select(running => _store.Record(running)).ToList();

        _store.Gate.Dispose();

        Assert.All(turns, turn => Assert.True(turn.IsCompletedSuccessfully));
        await Assert.ThrowsAsync<ObjectDisposedException>(() => _store.Gate.Run(_ => 0));
        Assert.False(File.Exists(_store.File + "-wal"), "The last connection tidies the write-ahead log away.");
    }

    [Fact]
    public async Task Turn_KeptAfterItsTime_CannotWrite()
    {
        var kept = await _store.Gate.Run(transaction => transaction);

        Assert.Throws<InvalidOperationException>(() => kept.Connection);
    }

    /// <summary>Keeps the gate busy until it is told to go on, so that those who come meanwhile wait together.</summary>
    private Task<bool> Hold(ManualResetEventSlim open)
    {
        using var inside = new ManualResetEventSlim();
        var turn = _store.Gate.Run(_ =>
        {
            inside.Set();
            return open.Wait(TimeSpan.FromSeconds(30));
        });
        Assert.True(inside.Wait(TimeSpan.FromSeconds(30)));
        return turn;
    }
}
