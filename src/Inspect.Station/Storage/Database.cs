using System.Data.Common;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Inspect.Station.Storage;

/// <summary>The station's store, one SQLite file, and the only place that opens connections to it.</summary>
/// <remarks>
/// Most of what makes a connection safe is forgotten when it closes, so it is set here each time: full synchronisation (an answered record
/// is
/// on the disk), foreign keys, and recursive triggers, without which REPLACE deletes a row behind a delete trigger's back. The timeout is
/// the
/// driver's, which repeats a busy statement itself; the engine's own <c>busy_timeout</c> would only add to it.
/// </remarks>
public sealed class Database
{
    private readonly string _reading;
    private readonly string _writing;

    /// <param name="file">Path of the file; it is made when absent, its folder is not.</param>
    /// <param name="pooling">Whether closed reading connections are kept for later; tests that delete the file do not want it.</param>
    public Database(string file, bool pooling = true)
    {
        var settings = new SqliteConnectionStringBuilder
        {
            DataSource = file,
            ForeignKeys = true,
            RecursiveTriggers = true,
            DefaultTimeout = 5,
            Pooling = false,
        };
        _writing = settings.ConnectionString;
        settings.Pooling = pooling;
        settings.Mode = SqliteOpenMode.ReadOnly;
        _reading = settings.ConnectionString;
    }

    /// <summary>Opens a connection that can only read. The caller closes it, and soon: what it has begun to read cannot be tidied
    /// away.</summary>
    public DbConnection OpenForReading() => Opened(_reading, "PRAGMA query_only = ON;");

    /// <summary>Opens a connection that can write: for the <see cref="WriteGate"/>, and for the <see cref="Migrator"/> before there is
    /// one.</summary>
    /// <exception cref="CannotStartException">The engine has a known fault.</exception>
    internal DbConnection OpenForWriting()
    {
        var connection = Opened(_writing, "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;");
        EngineGuard.Require(connection.ExecuteScalar<string>("SELECT sqlite_version()"));
        return connection;
    }

    private static SqliteConnection Opened(string settings, string pragmas)
    {
        var connection = new SqliteConnection(settings);
        try
        {
            connection.Open();
            connection.Execute(pragmas);
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }
}
