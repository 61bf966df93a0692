using System.Collections.Concurrent;
using System.Data.Common;
using System.Runtime.InteropServices;
using Dapper;
using Microsoft.Data.Sqlite;
using SQLitePCL;

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

    /// <summary>The log is cut back to this after a checkpoint, once it has grown beyond.</summary>
    private const long LargestLog = 64 * 1024 * 1024;

    private readonly string _file;
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
        _file = Path.GetFullPath(file);
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

    /// <summary>How long the log is, in bytes.</summary>
    public long LogLength => new FileInfo(_file + "-wal") is { Exists: true } log ? log.Length : 0;

    /// <summary>How much room the disk has, in bytes.</summary>
    public long FreeSpace => new DriveInfo(Path.GetDirectoryName(_file)!).AvailableFreeSpace;

    /// <summary>What a fault of the store means, in a sentence or two for people; null for any other error.</summary>
    public static string? SentenceOf(Exception? error) => error switch
    {
        StoreFaultException or CannotStartException => error.Message,
        SqliteException { SqliteErrorCode: raw.SQLITE_FULL } =>
            "The disk that the store is on is full, so nothing was recorded: make room on it.",
        SqliteException { SqliteErrorCode: raw.SQLITE_IOERR } =>
            "The disk that the store is on does not read or write, so nothing was recorded: look at the disk before anything else.",
        SqliteException { SqliteErrorCode: raw.SQLITE_CORRUPT or raw.SQLITE_NOTADB } =>
            "The store is damaged: stop the station, check the store with the verb check, and restore it from a backup.",
        SqliteException { SqliteErrorCode: raw.SQLITE_CANTOPEN or raw.SQLITE_READONLY } =>
            "The store cannot be opened or written, so nothing was recorded: look at the data folder and its permissions.",
        _ => null,
    };

    /// <summary>Returns if the open store is still the file at its path.</summary>
    /// <remarks>The engine compares the inode of the open file with that of the path. On systems without inodes an open file can be
    /// neither replaced nor removed, and nothing is compared.</remarks>
    /// <exception cref="StoreFaultException">The folder or the file was removed, moved or replaced.</exception>
    internal static void RequireInPlace(DbConnection connection)
    {
        if (HasMoved(connection))
        {
            throw new StoreFaultException("The store is no longer in its place: its folder or file was removed, moved or replaced while "
                + "the station runs, so nothing was recorded. Stop the station and put the store back.");
        }
    }

    /// <summary>Closes the readers that wait, empties the log into the store, and closes the writing connection.</summary>
    internal void Close(DbConnection writing)
    {
        Dispose();
        if (writing.State == System.Data.ConnectionState.Open)
        {
            if (HasMoved(writing))
            {
                // The engine would write into the files that are at its path now.
                raw.sqlite3_db_config(((SqliteConnection)writing).Handle, raw.SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, out _);
            }
            else
            {
                try
                {
                    writing.Execute("PRAGMA wal_checkpoint(TRUNCATE)");
                }
                catch (SqliteException)
                {
                    // The log stays, and the next start reads it.
                }
            }
        }

        writing.Dispose();
    }

    /// <summary>The tables whose structure can be checked by themselves: all but the register's, whose entries are read one by
    /// one.</summary>
    internal static List<string> TablesOf(DbConnection connection) => connection.Query<string>(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name <> 'register_entry' ORDER BY name")
        .AsList();

    /// <summary>What the engine finds wrong with a table and its indexes.</summary>
    internal static List<string> DamageOf(DbConnection connection, string table)
    {
        try
        {
            return connection.Query<string>($"PRAGMA integrity_check('{table}')").Where(found => found != "ok").Take(3).ToList();
        }
        catch (SqliteException error)
        {
            return [error.Message];
        }
    }

    /// <summary>Makes the index of the leaf hashes again from the rows of the register.</summary>
    internal static void MendLeaves(DbConnection connection) => connection.Execute("REINDEX register_leaf");

    private static bool HasMoved(DbConnection connection)
    {
        var moved = 0;
        return connection is SqliteConnection { Handle: { } handle }
            && FileControl(handle, MainStore, HasMovedOperation, ref moved) == raw.SQLITE_OK && moved != 0;
    }

    // SQLITE_FCNTL_HAS_MOVED, https://sqlite.org/c3ref/c_fcntl_begin_atomic_write.html
    private const int HasMovedOperation = 20;
    private const nint MainStore = 0;

    [DllImport("e_sqlite3", EntryPoint = "sqlite3_file_control")]
    private static extern int FileControl(SafeHandle database, nint name, int operation, ref int answer);

    /// <summary>Opens a connection that can write, for the <see cref="WriteGate"/> and, before it
    /// exists, for the <see cref="Migrator"/>.</summary>
    /// <exception cref="CannotStartException">The engine has a known fault.</exception>
    internal DbConnection OpenForWriting()
    {
        var connection = Opened(
            new KeptStatements(_writing), "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA temp_store = MEMORY; "
                + FormattableString.Invariant($"PRAGMA journal_size_limit = {LargestLog};"));
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
