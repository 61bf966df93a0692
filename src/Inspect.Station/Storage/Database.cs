using System.Collections.Concurrent;
using System.Data.Common;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Inspect.Station.Storage;

/// <summary>The station's store: one SQLite file. Connections to it are opened only here.</summary>
/// <remarks>
/// SQLite forgets most safety settings when a connection closes, so they are set here each time: full synchronisation (an answered record
/// is on the disk), foreign keys, and recursive triggers, without which REPLACE deletes a row and skips its delete trigger. The timeout is
/// the driver's: it repeats a busy statement. The engine's own <c>busy_timeout</c> would only add to it. What undoes a turn at the write
/// gate is kept in memory: as a temporary file it would be made and deleted in each turn.
/// </remarks>
public sealed class Database : IDisposable
{
    /// <summary>How many connections stay open for the next reader.</summary>
    private const int MostIdle = 16;

    private const int MostTries = 50;
    private static readonly TimeSpan BetweenTries = TimeSpan.FromMilliseconds(100);

    private readonly string _reading;
    private readonly string _writing;
    private readonly ConcurrentStack<KeptStatements>? _idle;
    private volatile bool _isClosed;

    /// <param name="file">Path of the file. The file is created when it does not exist; its folder is not.</param>
    /// <param name="keepsOpen">Whether reading connections stay open for the next reader, until this is disposed.</param>
    public Database(string file, bool keepsOpen = true)
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
        _idle = keepsOpen ? [] : null;
        settings.Mode = SqliteOpenMode.ReadOnly;
        _reading = settings.ConnectionString;
    }

    /// <summary>Opens a connection that can only read. The caller closes it soon, because the log cannot be checkpointed
    /// past an open reader.</summary>
    public DbConnection OpenForReading() =>
        _idle?.TryPop(out var idle) == true ? idle : Opened(new KeptStatements(_reading, Keep), "PRAGMA query_only = ON;");

    /// <summary>Closes the connections that wait for the next reader.</summary>
    public void Dispose()
    {
        _isClosed = true;
        while (_idle?.TryPop(out var idle) == true)
        {
            idle.Dispose();
        }
    }


    /// <summary>Opens a connection that can write, for the <see cref="WriteGate"/> and, before it
    /// exists, for the <see cref="Migrator"/>.</summary>
    /// <exception cref="CannotStartException">The engine has a known fault.</exception>
    internal DbConnection OpenForWriting()
    {
        var connection = Opened(
            new KeptStatements(_writing), "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA temp_store = MEMORY;");
        EngineGuard.Require(connection.ExecuteScalar<string>("SELECT sqlite_version()"));
        return connection;
    }

    /// <summary>Writes the whole store anew and empties its log, so that nothing that was deleted is left in their files.</summary>
    /// <remarks>The copy that is made meanwhile is a temporary file: the store may be larger than the memory.</remarks>
    /// <exception cref="IOException">A reader held the log for too long.</exception>
    internal static void Rewrite(DbConnection connection)
    {
        connection.Execute("PRAGMA temp_store = FILE");
        connection.Execute("VACUUM");
        connection.Execute("PRAGMA temp_store = MEMORY");
        connection.Execute("PRAGMA secure_delete = OFF");
        for (var tries = 1; connection.ExecuteScalar<long>("PRAGMA wal_checkpoint(TRUNCATE)") != 0; tries++)
        {
            if (tries == MostTries)
            {
                throw new IOException("Something reads the store all the time, so its log could not be emptied.");
            }

            Thread.Sleep(BetweenTries);
        }
    }

    private bool Keep(KeptStatements used)
    {
        if (_isClosed || _idle is null || _idle.Count >= MostIdle)
        {
            return false;
        }

        _idle.Push(used);
        return true;
    }

    private static SqliteConnection Opened(SqliteConnection connection, string pragmas)
    {
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
