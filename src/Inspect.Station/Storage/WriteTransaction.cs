using System.Collections.Immutable;
using System.Data.Common;
using Inspect.Ledger;

namespace Inspect.Station.Storage;

/// <summary>A caller's turn at the write gate, which is a write transaction: the connection to write with, and the register as it
/// is within the transaction.</summary>
/// <remarks>It is valid only while the caller's function runs.</remarks>
public sealed class WriteTransaction
{
    internal WriteTransaction(
        DbTransaction transaction, RegisterHead head, ImmutableDictionary<string, long> numbers, long changes,
        IReadOnlyList<RegisterIndex> indexes)
    {
        Changes = changes;
        Numbers = numbers;
        Indexes = indexes;
        Transaction = transaction;
        Head = head;
    }

    /// <summary>Pass this to every statement.</summary>
    public DbTransaction Transaction { get; }

    public DbConnection Connection =>
        Transaction.Connection ?? throw new InvalidOperationException("The turn at the write gate is over.");

    /// <summary>The indexes that are updated with each new entry.</summary>
    internal IReadOnlyList<RegisterIndex> Indexes { get; }

    /// <summary>What <see cref="WriteGate.Changes"/> will be, with the turns of this commit that came before.</summary>
    public long Changes { get; internal set; }

    /// <summary>The register's head after what this transaction has appended so far.</summary>
    public RegisterHead Head { get; internal set; }

    /// <summary>How many entries were read and found in order with their indexes since the start; of these the indexes can be
    /// believed.</summary>
    public long SoundUpTo { get; internal init; }

    /// <summary>The highest number given to an inspection of each event that was asked for since the start; it comes from the register, and
    /// what a caller sets is undone with the caller's work.</summary>
    public ImmutableDictionary<string, long> Numbers { get; set; }
}
