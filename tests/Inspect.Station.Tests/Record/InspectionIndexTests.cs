using Dapper;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Storage;

namespace Inspect.Station.Tests.Record;

public sealed class InspectionIndexTests : IDisposable
{
    private readonly TestStore _store = new();

    public void Dispose() => _store.Dispose();

    [Fact]
    public async Task Rebuild_FromTheRegister_GivesTheSameIndex()
    {
        for (var running = 1; running <= 40; running++)
        {
            await _store.Record(running);
            await _store.Record(running, "CUP");
        }

        var before = Dump();
        await _store.Gate.Run(transaction => transaction.Connection.Execute(
            """
            DELETE FROM inspection_rule;
            UPDATE inspection_index SET outcome = 'hold', superseded_by = NULL;
            DELETE FROM inspection_index WHERE seq > 30;
            """,
            null,
            transaction.Transaction));
        Assert.NotEqual(before, Dump());

        await _store.Gate.Run(transaction =>
        {
            RegisterIndex.Rebuild(transaction, InspectionIndex.Index);
            return 0;
        });

        Assert.Equal(before, Dump());
    }

    [Fact]
    public async Task Add_Inspection_IsFoundByNumberCodeEntrySerialAndRule()
    {
        for (var running = 1; running <= 6; running++)
        {
            await _store.Record(running);
        }

        using var connection = _store.Database.OpenForReading();
        Assert.Equal([3], Find("number = 'OPEN-0003'"));
        Assert.Equal([3], Find("code = 'CODEOPEN0003'"));
        Assert.Equal([4, 5, 6], Find("event = 'OPEN' AND entry = '101'"));
        Assert.Equal([3], Find($"serial_folded = '{SerialLookAlikes.Fold("7-0ooo3-l")}'"));
        Assert.Equal([3, 6], Find("seq IN (SELECT seq FROM inspection_rule WHERE rule = 'left-right' AND outcome = 'fail')"));
        Assert.Equal([3, 6], Find("seq IN (SELECT seq FROM inspection_rule WHERE rule = 'grip-hole-depth' AND outcome = 'fail')"));
        Assert.Equal([5], Find("supersedes = 'OPEN-0004'"));
        Assert.Equal([4], Find("superseded_by = 'OPEN-0005'"));

        List<long> Find(string condition) =>
            connection.Query<long>($"SELECT seq FROM inspection_index WHERE {condition} ORDER BY seq").AsList();
    }

    /// <summary>What an accepted loss leaves out counts whether the entries or their indexes are read.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    [InlineData(3)]
    public async Task NextRunning_AfterALoss_LeavesOutItsNumbers(long sound)
    {
        await _store.Record(1);
        await _store.Record(2);
        await _store.Gate.Run(write =>
        {
            new RegisterLoss("Lost", 9, null, 5).Accept(write, DateTimeOffset.UnixEpoch);
            using var entry = RegisterEntry.Read(3, Register.BodyOf(write.Connection, 3, write.Transaction)!);
            RegisterLoss.Index.Add(write, entry);
            return 0;
        });
        _store.Gate.SoundUpTo = sound;

        Assert.Equal(8, await _store.Gate.Run(write => InspectionIndex.NextRunning(write, "OPEN")));
        Assert.Equal(9, await _store.Gate.Run(write => InspectionIndex.NextRunning(write, "OPEN")));
        Assert.Equal(6, await _store.Gate.Run(write => InspectionIndex.NextRunning(write, "NEW")));
    }

    [Fact]
    public async Task NextRunning_OfAnEvent_CountsThatEventOnly()
    {
        await _store.Record(1);
        await _store.Record(2);
        await _store.Record(1, "CUP");

        Assert.Equal(3, await _store.Gate.Run(transaction => InspectionIndex.NextRunning(transaction, "OPEN")));
        Assert.Equal(2, await _store.Gate.Run(transaction => InspectionIndex.NextRunning(transaction, "CUP")));
        Assert.Equal(1, await _store.Gate.Run(transaction => InspectionIndex.NextRunning(transaction, "NEW")));
    }

    [Fact]
    public async Task Add_BodyWithoutACode_RecordsNothing()
    {
        var body = TestStore.Inspection(1);
        body.Remove("code");

        var error = await Assert.ThrowsAsync<InvalidDataException>(() => _store.Gate.Run(transaction =>
        {
            var entry = Register.Append(transaction, InspectionBody.Kind, 1, body);
            using var read = RegisterEntry.Read(entry.Seq, entry.Body);
            InspectionIndex.Index.Add(transaction, read);
            return 0;
        }));

        Assert.Contains("'code'", error.Message, StringComparison.Ordinal);
        Assert.Equal(0, _store.Gate.Head.Size);
    }

    private List<string> Dump()
    {
        using var connection = _store.Database.OpenForReading();
        return
        [
            .. connection.Query("SELECT * FROM inspection_index ORDER BY seq")
                .Select(row => (string)string.Join('|', (IEnumerable<KeyValuePair<string, object>>)row)),
            .. connection.Query<string>("SELECT rule || outcome || seq FROM inspection_rule ORDER BY seq, rule"),
        ];
    }
}
