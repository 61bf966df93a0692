using System.Data;
using Microsoft.Data.Sqlite;

namespace Inspect.Station.Storage;

/// <summary>A connection that keeps its statements prepared: a statement that runs again is not parsed again.</summary>
/// <param name="settings">The connection string.</param>
/// <param name="keep">Asked when it is disposed: takes it to be used again, or says no, and it is closed.</param>
internal sealed class KeptStatements(string settings, Func<KeptStatements, bool>? keep = null) : SqliteConnection(settings)
{
    /// <summary>How many are kept; a statement beyond is prepared each time. Lists as parameters give statements of many lengths.</summary>
    private const int Most = 200;

    private readonly Dictionary<string, SqliteCommand> _kept = new(StringComparer.Ordinal);
    private int _running;

    /// <summary>How many statements have run.</summary>
    public long Runs { get; private set; }

    /// <inheritdoc/>
    public override SqliteCommand CreateCommand() =>
        new Lent(this) { Connection = this, CommandTimeout = DefaultTimeout, Transaction = Transaction };

    // With a statement or a transaction still open it would hold on to an old state of the store.
    protected override void Dispose(bool disposing)
    {
        if (!disposing || keep is null || _running > 0 || Transaction is not null || State != ConnectionState.Open || !keep(this))
        {
            base.Dispose(disposing);
        }
    }

    // A statement that runs is taken out, so that the same one may run inside it.
    private SqliteCommand Take(string text)
    {
        _running++;
        return _kept.Remove(text, out var kept) ? kept : new SqliteCommand(text, this);
    }

    private void PutBack(SqliteCommand used)
    {
        _running--;
        used.Parameters.Clear();
        if (State != ConnectionState.Open || _kept.Count >= Most || !_kept.TryAdd(used.CommandText, used))
        {
            used.Dispose();
        }
    }

    /// <summary>What a caller sees as its command: it runs the kept one of the same text.</summary>
    private sealed class Lent(KeptStatements from) : SqliteCommand
    {
        private SqliteCommand? _prepared;

        public override SqliteDataReader ExecuteReader(CommandBehavior behavior)
        {
            if (_prepared?.CommandText != CommandText)
            {
                GiveBack();
                _prepared = from.Take(CommandText);
            }

            from.Runs++;
            _prepared!.Transaction = Transaction;
            _prepared.CommandTimeout = CommandTimeout;
            _prepared.Parameters.Clear();
            foreach (SqliteParameter parameter in Parameters)
            {
                // As the statement writes it; by the bare name the driver tries each way to write it.
                parameter.ParameterName = $"@{parameter.ParameterName.TrimStart('@')}";
                _prepared.Parameters.Add(parameter);
            }

            return _prepared.ExecuteReader(behavior);
        }

        protected override void Dispose(bool disposing)
        {
            if (disposing)
            {
                GiveBack();
            }

            base.Dispose(disposing);
        }

        private void GiveBack()
        {
            if (_prepared is { } used)
            {
                _prepared = null;
                from.PutBack(used);
            }
        }
    }
}
