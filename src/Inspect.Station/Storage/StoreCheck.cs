using System.Data.Common;
using Dapper;
using Inspect.Ledger;

namespace Inspect.Station.Storage;

/// <summary>Reads every entry of a store once, in small turns: each body against its leaf hash and its place, each index row against its
/// entry, the roots against the kept checkpoints, and at the end the tables of the engine, one a turn: the index of 200,000 inspections
/// takes about 2 s, in which nobody who writes waits.</summary>
/// <param name="database">The store; it is only read.</param>
/// <param name="indexes">The indexes that can be compared with their entries.</param>
/// <param name="sizes">The sizes at which the root is wanted.</param>
public sealed class StoreCheck(Database database, IEnumerable<RegisterIndex> indexes, IReadOnlyCollection<long>? sizes = null)
{
    private const int EntriesATurn = 128;

    // A store with more is as good as lost, and nobody reads a longer list.
    private const int MostFaults = 100;

    private readonly ILookup<string, RegisterIndex> _indexes = indexes.ToLookup(index => index.Kind);
    private readonly Dictionary<RegisterIndex, long> _rows = [];
    private readonly List<string> _faults = [];
    private readonly Dictionary<long, TreeHash> _roots = new() { [0] = TreeHash.OfEmptyTree };
    private RegisterHead _head = RegisterHead.Empty;

    /// <summary>What was found damaged, a sentence each.</summary>
    public IReadOnlyList<string> Faults => _faults;

    /// <summary>The roots at the sizes that were asked for.</summary>
    public IReadOnlyDictionary<long, TreeHash> Roots => _roots;

    /// <summary>The register as it was read.</summary>
    public RegisterHead Head => _head;

    /// <summary>Reads on, turn by turn; each gives how many entries were read and how many there were at the beginning.</summary>
    public IEnumerable<(long Done, long Of)> Turns()
    {
        var checkpoints = Checkpoints();
        var (done, of) = (0L, Count());
        while (done < of)
        {
            done = ReadOn(done, of, checkpoints);
            yield return (done, of);
        }

        foreach (var kept in checkpoints.Values.Where(kept => kept.Size > of))
        {
            Add($"A kept checkpoint knows {kept.Size} entries, and the register has {of}.");
        }

        foreach (var table in Tables())
        {
            foreach (var damage in DamageOf(table))
            {
                Add($"The table {table} of the store is damaged ({damage}): restore the store from a backup.");
            }

            yield return (of, of);
        }
    }

    private long ReadOn(long done, long of, Dictionary<long, Checkpoint> checkpoints)
    {
        // The hash of the row and that of the index are read from where each stands.
        var sql = $"""
            SELECT r.seq AS Seq, r.kind AS Kind, r.version AS Version, r.leaf_hash AS Leaf, r.body AS Body,
                   (SELECT l.leaf_hash FROM register_entry l {EngineSql.By("register_leaf")} WHERE l.seq = r.seq) AS Indexed
            FROM register_entry r {EngineSql.ByKey} WHERE r.seq > @done AND r.seq <= @to ORDER BY r.seq
            """;
        var to = Math.Min(done + EntriesATurn, of);
        using var connection = database.OpenForReading();
        List<Row> rows;
        try
        {
            rows = connection.Query<Row>(sql, new { done, to }).AsList();
        }
        catch (DbException error)
        {
            Add($"The entries {done + 1} to {to} of the register cannot be read ({error.Message}): restore the store from a backup.");
            rows = [];
        }

        foreach (var row in rows)
        {
            Judge(row, connection);
            if (sizes?.Contains(_head.Size) == true)
            {
                _roots[_head.Size] = _head.Edge.Root;
            }

            if (checkpoints.Remove(_head.Size, out var kept) && kept.Root != _head.Edge.Root)
            {
                Add($"The first {kept.Size} entries of the register are not those of a kept checkpoint.");
            }
        }

        if (to == of)
        {
            CountRows(connection, of);
        }

        return to;
    }

    private void Judge(Row row, DbConnection connection)
    {
        var hash = MerkleTree.LeafHash(row.Body);
        var isRow = row.Leaf.AsSpan().SequenceEqual(hash.ToArray());
        var isIndexed = row.Indexed.AsSpan().SequenceEqual(hash.ToArray());
        if (!isRow || !isIndexed)
        {
            Add(!isRow && !isIndexed ? new DamagedEntryException(row.Seq).Message : HashDiffers(row.Seq));
        }
        else if (row.Seq != _head.Size + 1)
        {
            Add($"Entry {_head.Size + 1} of the register is missing: restore the store from a backup.");
        }
        else if (!EntryPlace.TryRead(row.Body, out var place) || place != _head.Next)
        {
            Add($"Entry {row.Seq} of the register does not name the entry before it: one of them was replaced.");
        }
        else
        {
            CompareIndexes(row, connection);
        }

        // The tree goes on as it stands, so that what follows is judged by itself.
        _head = _head.Append(row.Indexed?.Length == TreeHash.Length ? new TreeHash(row.Indexed) : hash);
    }

    private void CompareIndexes(Row row, DbConnection connection)
    {
        using var entry = RegisterEntry.Read(row.Seq, row.Body);
        if (entry.TextOrNull("kind") != row.Kind || !entry.Body.TryGetProperty("v", out var version) || version.GetInt64() != row.Version)
        {
            Add($"Entry {row.Seq} of the register stands under another kind than its own: restore the store from a backup.");
            return;
        }

        foreach (var index in _indexes[row.Kind])
        {
            if (index.Holds is { } holds && !holds(index, connection, entry))
            {
                Add($"What the index of {index.Name} says of entry {row.Seq} is not what the entry says: {Reindex}");
            }

            _rows[index] = _rows.GetValueOrDefault(index) + 1;
        }
    }

    // Rows that no entry has.
    private void CountRows(DbConnection connection, long of)
    {
        foreach (var index in _indexes.SelectMany(kind => kind).Where(index => index.Holds is not null))
        {
            var rows = connection.ExecuteScalar<long>($"SELECT count(*) FROM {index.Tables[^1]} WHERE seq <= @of", new { of });
            if (rows != _rows.GetValueOrDefault(index) && _faults.Count == 0)
            {
                Add($"The index of {index.Name} has {rows} rows for {_rows.GetValueOrDefault(index)} entries: {Reindex}");
            }
        }
    }

    private long Count()
    {
        using var connection = database.OpenForReading();
        return connection.ExecuteScalar<long>("SELECT coalesce(max(seq), 0) FROM register_entry");
    }

    private Dictionary<long, Checkpoint> Checkpoints()
    {
        using var connection = database.OpenForReading();
        return RegisterLoss.CheckpointsToHold(connection).ToDictionary(kept => kept.Size);
    }

    private List<string> Tables()
    {
        using var connection = database.OpenForReading();
        return Database.TablesOf(connection);
    }

    private List<string> DamageOf(string table)
    {
        using var connection = database.OpenForReading();
        return Database.DamageOf(connection, table);
    }

    private void Add(string fault)
    {
        if (_faults.Count < MostFaults)
        {
            _faults.Add(fault);
        }
    }

    private static string HashDiffers(long seq) => FormattableString.Invariant(
        $"The hash that the store keeps of entry {seq} is damaged, and the entry is whole: {Reindex}");

    private const string Reindex = "stop the station and run the verb reindex.";

    private sealed record Row(long Seq, string Kind, long Version, byte[] Leaf, byte[] Body, byte[]? Indexed);
}
