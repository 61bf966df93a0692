using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Data.Common;
using System.Diagnostics;
using Inspect.Ledger;
using Microsoft.Extensions.Logging.Abstractions;

namespace Inspect.Station.Storage;

/// <summary>The only way to write to the store. One thread runs the callers' work one after another, and answers each caller once its work
/// is on the disk.</summary>
/// <remarks>
/// A caller's turn at the gate is its write transaction. Callers that wait at the same time share one commit, because most of a commit's
/// time is waiting for the disk. Each has its own savepoint: a caller's failure undoes that caller's work only, but a failed commit fails
/// all of them. The register's head is kept here because it changes with the transaction: a failed caller's head is dropped with its
/// savepoint, and only a committed head is visible outside.
/// </remarks>
public sealed partial class WriteGate : IDisposable
{
    /// <summary>How many callers share a commit at most, so that the first does not wait for a long queue.</summary>
    private const int MostTogether = 256;

    private const string CallersSavepoint = "caller";

    /// <summary>A wait longer than this is logged.</summary>
    private static readonly TimeSpan Slow = TimeSpan.FromSeconds(1);

    private readonly Database _database;
    private readonly RegisterIndex[] _indexes;
    private readonly ILogger _log;
    private readonly StoreWitness? _witness;
    private readonly BlockingCollection<Turn> _turns = [];
    private readonly Thread _thread;
    private DbConnection _connection;
    private volatile RegisterHead _head;
    private ImmutableDictionary<string, long> _numbers = ImmutableDictionary<string, long>.Empty;
    private long _gap;
    private long _failedCommits;
    private long _soundUpTo;
    private long _changes;

    /// <summary>Opens the store, which must already be migrated, and rebuilds the register's head from it.</summary>
    /// <param name="database">The store.</param>
    /// <param name="indexes">The indexes that are updated with each new entry.</param>
    /// <param name="log">Where slow writes and failed commits are logged.</param>
    /// <param name="witness">What the store is compared with, and what is written after each commit; a station always has one.</param>
    /// <exception cref="CannotStartException">The store cannot be trusted.</exception>
    public WriteGate(
        Database database, IEnumerable<RegisterIndex> indexes, ILogger<WriteGate>? log = null, StoreWitness? witness = null)
    {
        _database = database;
        _indexes = [.. indexes];
        _log = log ?? NullLogger<WriteGate>.Instance;
        _witness = witness;
        _connection = database.OpenForWriting();
        try
        {
            (_head, var roots) = Register.ReadHead(_connection, RegisterLoss.Sizes(_connection, witness));
            if (witness is not null)
            {
                Compare(witness, roots);
            }
        }
        catch
        {
            _connection.Dispose();
            throw;
        }

        _thread = new Thread(ServeTurns) { Name = "write gate", IsBackground = true };
        _thread.Start();
    }

    /// <summary>The register as committed.</summary>
    public RegisterHead Head => _head;

    /// <summary>How many committed turns may have changed what an inspection is judged by: all but those that record one. What was read
    /// from the store after this number holds in a later turn that still has the same number.</summary>
    public long Changes => Volatile.Read(ref _changes);

    /// <summary>How many entries a check since the start found in order with their indexes.</summary>
    internal long SoundUpTo
    {
        get => Volatile.Read(ref _soundUpTo);
        set => Volatile.Write(ref _soundUpTo, value);
    }

    /// <summary>How many commits have failed since the start.</summary>
    public long FailedCommits => Volatile.Read(ref _failedCommits);

    /// <summary>How many callers wait for their turn.</summary>
    internal int Waiting => _turns.Count;

    /// <summary>Runs a function in a write transaction. The task ends after the commit, or with the exception of the function.</summary>
    /// <param name="work">The function.</param>
    /// <param name="isRecording">Whether it records an inspection, which does not count in <see cref="Changes"/>.</param>
    /// <exception cref="ObjectDisposedException">The station is shutting down.</exception>
    public Task<T> Run<T>(Func<WriteTransaction, T> work, bool isRecording = false)
    {
        if (Thread.CurrentThread == _thread)
        {
            throw new InvalidOperationException("Work inside the write gate cannot wait for another turn at it.");
        }

        var turn = new Turn<T>(work) { IsRecording = isRecording };
        Queue(turn);
        return turn.Answer;
    }

    /// <summary>Writes the whole store anew, so that what was deleted before is in none of its files. Whoever writes waits.</summary>
    public Task Rewrite()
    {
        var turn = new Rewriting(() => Database.Rewrite(_connection)) { IsRecording = false };
        Queue(turn);
        return turn.Answer;
    }

    /// <summary>Takes no new work, finishes the work that waits, empties the store's log into it and closes it.</summary>
    public void Dispose()
    {
        // The queue is not disposed: it refuses callers that come too late.
        _turns.CompleteAdding();
        _thread.Join();
        _database.Close(_connection);
    }

    // Before the thread runs: nothing is appended to a register that lacks something.
    private void Compare(StoreWitness witness, IReadOnlyDictionary<long, TreeHash> roots)
    {
        _gap = RegisterLoss.GapOf(_connection);
        if (RegisterLoss.Find(_connection, _head, roots, witness) is { } loss)
        {
            if (!witness.AcceptsLoss)
            {
                throw loss.Refusal(witness.Folder);
            }

            using var transaction = _connection.BeginTransaction();
            var write = new WriteTransaction(transaction, _head, _numbers, 0, [.. _indexes.Union([RegisterLoss.Index])]);
            loss.Accept(write, witness.Now);
            RegisterLoss.Begin(write, witness.Now);
            transaction.Commit();
            _head = write.Head;
            _gap += loss.Gap;
            witness.Key = "";
        }

        // Where the store went on after its witness, the witness follows.
        witness.Mend();
        if (witness.Last is not null)
        {
            witness.Keep(_head, _gap);
        }
    }

    private void Queue(Turn turn)
    {
        try
        {
            _turns.Add(turn);
        }
        catch (InvalidOperationException)
        {
            throw new ObjectDisposedException(nameof(WriteGate), "The station is shutting down and takes no more records.");
        }
    }

    private void ServeTurns()
    {
        foreach (var first in _turns.GetConsumingEnumerable())
        {
            var together = new List<Turn> { first };
            while (together.Count < MostTogether && _turns.TryTake(out var another))
            {
                together.Add(another);
            }

            Serve(together);
        }
    }

    private void Serve(List<Turn> turns)
    {
        try
        {
            OpenAgain();
            Database.RequireInPlace(_connection);
            using (var transaction = _connection.BeginTransaction())
            {
                var shared = new WriteTransaction(transaction, _head, _numbers, _changes, _indexes) { SoundUpTo = SoundUpTo };
                foreach (var turn in turns)
                {
                    ServeOne(turn, shared);
                }

                transaction.Commit();
                (_head, _numbers) = (shared.Head, shared.Numbers);
                Volatile.Write(ref _changes, shared.Changes);
            }

            Database.RequireInPlace(_connection);
            _witness?.Keep(_head, _gap);
        }
        catch (Exception error)
        {
            // Nobody is told that anything was written. The connection may be in any state: the next callers get a new one, and the head is
            // read again with it. Only a store that is no longer in its place is not opened again, because another may be there.
            if (error is not StoreFaultException)
            {
                _connection.Dispose();
            }

            Interlocked.Increment(ref _failedCommits);
            NothingWritten(_log, turns.Count, error);
            turns.ForEach(turn => turn.Fail(error));
            return;
        }

        foreach (var turn in turns)
        {
            turn.Finish();
            if (turn.Waited is var waited && waited > Slow)
            {
                turn.AsItsCaller(() => WaitedLong(_log, waited.TotalMilliseconds, turns.Count));
            }
        }
    }

    // A commit that failed may still be on the disk, and the file may be another one.
    private void OpenAgain()
    {
        if (_connection.State == System.Data.ConnectionState.Open)
        {
            return;
        }

        var opened = _database.OpenForWriting();
        try
        {
            var (head, roots) = Register.ReadHead(opened, new HashSet<long> { _head.Size });
            if (!roots.TryGetValue(_head.Size, out var root) || root != _head.Edge.Root)
            {
                throw new StoreFaultException("The store no longer has what was recorded in it: stop the station and look at its folder.");
            }

            (_connection, _head, _numbers) = (opened, head, _numbers.Clear());
        }
        catch
        {
            opened.Dispose();
            throw;
        }
    }

    private static void ServeOne(Turn turn, WriteTransaction shared)
    {
        var (before, numbers) = (shared.Head, shared.Numbers);
        shared.Transaction.Save(CallersSavepoint);
        if (!turn.TryWork(shared))
        {
            shared.Transaction.Rollback(CallersSavepoint);
            (shared.Head, shared.Numbers) = (before, numbers);
        }

        shared.Changes += turn.IsRecording ? 0 : 1;

        shared.Transaction.Release(CallersSavepoint);
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "A commit of {Callers} callers failed; nothing of it was written")]
    private static partial void NothingWritten(ILogger log, int callers, Exception error);

    [LoggerMessage(Level = LogLevel.Warning, Message = "Writing took {Milliseconds:0} ms, in a commit of {Callers} callers")]
    private static partial void WaitedLong(ILogger log, double milliseconds, int callers);

    private abstract class Turn
    {
        private readonly long _began = Stopwatch.GetTimestamp();
        private readonly ExecutionContext? _caller = ExecutionContext.Capture();

        /// <summary>Whether it records an inspection.</summary>
        public required bool IsRecording { get; init; }

        /// <summary>How long the caller has waited.</summary>
        public TimeSpan Waited => Stopwatch.GetElapsedTime(_began);

        /// <summary>Runs something so that its lines in the log carry the id of the caller's request.</summary>
        public void AsItsCaller(Action log)
        {
            if (_caller is null)
            {
                log();
            }
            else
            {
                ExecutionContext.Run(_caller, _ => log(), null);
            }
        }

        /// <summary>Does the caller's work. False when it threw: only that caller gets the exception.</summary>
        public abstract bool TryWork(WriteTransaction transaction);

        /// <summary>Answers after the commit.</summary>
        public abstract void Finish();

        /// <summary>Tells the caller that nothing was written.</summary>
        public abstract void Fail(Exception error);
    }

    private sealed class Turn<T>(Func<WriteTransaction, T> work) : Turn
    {
        // Callers continue on other threads: this one is for writing only.
        private readonly TaskCompletionSource<T> _answer = new(TaskCreationOptions.RunContinuationsAsynchronously);
        private T _result = default!;
        private Exception? _error;

        public Task<T> Answer => _answer.Task;

        public override bool TryWork(WriteTransaction transaction)
        {
            try
            {
                _result = work(transaction);
            }
            catch (Exception error)
            {
                _error = error;
            }

            return _error is null;
        }

        public override void Finish()
        {
            if (_error is null)
            {
                _answer.SetResult(_result);
            }
            else
            {
                _answer.SetException(_error);
            }
        }

        public override void Fail(Exception error) => _answer.SetException(_error ?? error);
    }

    // Nothing of it is in a transaction: it is done behind the commit of its turn.
    private sealed class Rewriting(Action rewrite) : Turn
    {
        private readonly TaskCompletionSource _answer = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public Task Answer => _answer.Task;

        public override bool TryWork(WriteTransaction transaction) => true;

        public override void Finish()
        {
            try
            {
                rewrite();
                _answer.SetResult();
            }
            catch (Exception error)
            {
                _answer.SetException(error);
            }
        }

        public override void Fail(Exception error) => _answer.SetException(error);
    }
}
