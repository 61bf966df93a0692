using Dapper;
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
}
