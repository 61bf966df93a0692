using Dapper;
using Inspect.Ledger;
using Inspect.Station.Storage;

namespace Inspect.Station.Tests.Storage;

/// <summary>The exported register, read back by the check that outsiders use. The behaviour is defined by this project.</summary>
public sealed class RegisterExportTests : IDisposable
{
    private readonly TestStore _store = new();

    public void Dispose() => _store.Dispose();

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(600)]
    public async Task Write_Register_IsSoundAndSignedByTheStation(int entries)
    {
        await Task.WhenAll(Enumerable.Range(1, entries).Select(running => _store.Record(running)));
        using var key = await StationKey.Open(_store.Folder, _store.Gate, TimeProvider.System);

        var finding = RegisterCheck.Check(await Export(key), key.Public);

        Assert.True(finding.IsSound, finding.Sentence);
        Assert.Equal((entries, true), (finding.Entries, finding.IsSignerProven));
    }

    [Fact]
    public async Task Write_WhileRecordingGoesOn_IsSound()
    {
        using var key = await StationKey.Open(_store.Folder, _store.Gate, TimeProvider.System);
        var recording = Task.Run(async () =>
        {
            for (var running = 1; running <= 300; running++)
            {
                await _store.Record(running);
            }
        });
        var longest = 0L;
        while (!recording.IsCompleted)
        {
            var finding = RegisterCheck.Check(await Export(key), key.Public);

            Assert.True(finding.IsSound, finding.Sentence);
            Assert.True(finding.Entries >= longest);
            longest = finding.Entries;
        }

        await recording;
        Assert.Equal(300, RegisterCheck.Check(await Export(key), key.Public).Entries);
    }

    [Fact]
    public async Task Write_StoreChangedBehindItsTriggers_IsFoundByTheCheckAndPlaced()
    {
        for (var running = 1; running <= 5; running++)
        {
            await _store.Record(running);
        }

        await _store.Gate.Run(transaction => transaction.Connection.Execute(
            """
            DROP TRIGGER register_entry_never_changed;
            UPDATE register_entry
            SET body = CAST(replace(CAST(body AS TEXT), '"outcome":"fail"', '"outcome":"pass"') AS BLOB)
            WHERE seq = 3;
            """,
            null,
            transaction.Transaction));
        using var key = await StationKey.Open(_store.Folder, _store.Gate, TimeProvider.System);

        var finding = RegisterCheck.Check(await Export(key), key.Public);

        Assert.Equal((RegisterFault.Altered, 3), (finding.Fault, finding.Entry));
    }

    private async Task<Stream> Export(StationKey key)
    {
        var output = new MemoryStream();
        await RegisterExport.Write(_store.Database, _store.Gate, key, output);
        output.Position = 0;
        return output;
    }
}
