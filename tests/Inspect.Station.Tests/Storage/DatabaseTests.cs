using Dapper;
using Inspect.Station.Storage;
using Microsoft.Data.Sqlite;

namespace Inspect.Station.Tests.Storage;

public sealed class DatabaseTests : IDisposable
{
    private readonly TestStore _store = new();

    public void Dispose() => _store.Dispose();

    [Theory]
    [InlineData("journal_mode", "wal")]
    [InlineData("synchronous", "2")] // FULL, https://sqlite.org/pragma.html#pragma_synchronous
    [InlineData("foreign_keys", "1")]
    [InlineData("recursive_triggers", "1")]
    public async Task WritingConnection_Pragma_IsSetForSafety(string pragma, string expected)
    {
        var value = await _store.Gate.Run(transaction =>
            transaction.Connection.ExecuteScalar<string>($"PRAGMA {pragma}", null, transaction.Transaction));

        Assert.Equal(expected, value);
    }

    [Fact]
    public void OpenForReading_Write_IsRefused()
    {
        using var connection = _store.Database.OpenForReading();

        Assert.Throws<SqliteException>(() => connection.Execute("INSERT INTO register_kind (kind) VALUES ('x')"));
    }

    [Fact]
    public async Task OpenForReading_ConnectionLeftOpenForTheNextReader_SeesWhatWasWrittenSince()
    {
        using var database = new Database(_store.File);
        var first = database.OpenForReading();
        Assert.Equal(0, first.ExecuteScalar<long>("SELECT count(*) FROM register_entry"));
        first.Dispose();
        await _store.Record(1);

        using var second = database.OpenForReading();

        Assert.Same(first, second);
        Assert.Equal(1, second.ExecuteScalar<long>("SELECT count(*) FROM register_entry"));
        Assert.Throws<SqliteException>(() => second.Execute("INSERT INTO register_kind (kind) VALUES ('x')"));
    }

    [Fact]
    public void OpenForReading_ReaderStillRunning_IsClosedAndNotKept()
    {
        using var database = new Database(_store.File);
        var connection = database.OpenForReading();
        var rows = connection.Query<string>("SELECT kind FROM register_kind", buffered: false).GetEnumerator();
        Assert.True(rows.MoveNext());

        connection.Dispose();

        Assert.Equal(System.Data.ConnectionState.Closed, connection.State);
        Assert.NotSame(connection, database.OpenForReading());
    }

    [Fact]
    public void Dispose_ConnectionsLeftOpen_AreClosed()
    {
        var database = new Database(_store.File);
        var connection = database.OpenForReading();
        connection.Dispose();
        Assert.Equal(System.Data.ConnectionState.Open, connection.State);

        database.Dispose();

        Assert.Equal(System.Data.ConnectionState.Closed, connection.State);
    }
}
