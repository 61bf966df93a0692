using System.Data.Common;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;

namespace Inspect.Station.Storage;

/// <summary>An entry as it was recorded: its number and its bytes.</summary>
/// <param name="Seq">Its number in the register, from 1.</param>
/// <param name="LeafHash">Its leaf in the tree.</param>
/// <param name="Body">Exactly the bytes that were hashed and stored.</param>
public sealed record EntryPosition(long Seq, TreeHash LeafHash, byte[] Body);

/// <summary>The register in the store. Entries are appended and read; they are never changed or deleted.</summary>
public static class Register
{
    /// <summary>Appends an entry, reads it back and hashes it again, so that a wrong write is not committed. Then adds its rows to the
    /// indexes of its kind.</summary>
    /// <param name="transaction">The caller's write transaction.</param>
    /// <param name="kind">The kind of entry, from the table register_kind.</param>
    /// <param name="version">The version of the body's format for this kind.</param>
    /// <param name="body">Its members; <c>v</c>, <c>kind</c>, <c>seq</c> and <c>prior</c> are written here.</param>
    /// <exception cref="ArgumentException">The body has a value without a canonical form: a null, or a number that
    /// is not an integer.</exception>
    /// <exception cref="InvalidDataException">The store returned other bytes than were written.</exception>
    public static EntryPosition Append(WriteTransaction transaction, string kind, long version, JsonObject body)
    {
        body["v"] = version;
        body["kind"] = kind;
        return Append(transaction, kind, version, place => place.Stamp(body));
    }

    /// <summary>The same for a body that its kind writes itself, with all its members.</summary>
    /// <param name="transaction">The caller's write transaction.</param>
    /// <param name="kind">The kind of entry, from the table register_kind.</param>
    /// <param name="version">The version of the body's format for this kind.</param>
    /// <param name="write">Writes the body's canonical bytes for its place in the register.</param>
    /// <param name="indexed">What the kind's indexes keep of it (<see cref="RegisterEntry.As"/>); absent, they read the bytes.</param>
    /// <exception cref="InvalidDataException">The bytes are not canonical, or the store returned others than were written.</exception>
    public static EntryPosition Append(
        WriteTransaction transaction, string kind, long version, Func<EntryPlace, byte[]> write, object? indexed = null)
    {
        var place = transaction.Head.Next;
        var bytes = write(place);
        var leaf = MerkleTree.LeafHash(bytes);
        transaction.Connection.Execute(
            """
            INSERT INTO register_entry (seq, kind, version, leaf_hash, body)
            VALUES (@seq, @kind, @version, @leafHash, @bytes)
            """,
            new { seq = place.Seq, kind, version, leafHash = leaf.ToArray(), bytes },
            transaction.Transaction);

        var stored = transaction.Connection.QuerySingle<EntryRow>(
            "SELECT leaf_hash AS LeafHash, body AS Body FROM register_entry WHERE seq = @seq",
            new { seq = place.Seq },
            transaction.Transaction);
        if (MerkleTree.LeafHash(stored.Body) != leaf || new TreeHash(stored.LeafHash) != leaf)
        {
            throw new InvalidDataException($"Entry {place.Seq} was read back from the store with other bytes than were written: "
                + "nothing was recorded.");
        }

        transaction.Head = transaction.Head.Append(leaf);
        using var entry = RegisterEntry.Read(place.Seq, stored.Body, indexed);
        foreach (var index in transaction.Indexes.Where(index => index.Kind == kind))
        {
            index.Add(transaction, entry);
        }

        return new EntryPosition(place.Seq, leaf, stored.Body);
    }

    /// <summary>Every entry of some kinds, in the order of the register and one at a time. Indexes are rebuilt from these.</summary>
    /// <exception cref="DamagedEntryException">An entry is not as it was recorded.</exception>
    internal static IEnumerable<(long Seq, string Kind, byte[] Body)> OfKinds(WriteTransaction transaction, IEnumerable<string> kinds) =>
        transaction.Connection.Query<(long Seq, byte[] Body, byte[] Leaf, string Kind)>(
            $"SELECT {Entry("r")}, r.kind FROM register_entry r WHERE r.kind IN @kinds ORDER BY r.seq", new { kinds },
            transaction.Transaction, buffered: false)
            .Select(row => (row.Seq, row.Kind, Whole(row.Seq, row.Body, row.Leaf)));

    /// <summary>The body of an entry as recorded; null when there is no such entry.</summary>
    /// <exception cref="DamagedEntryException">It is not as it was recorded.</exception>
    public static byte[]? BodyOf(DbConnection connection, long seq, DbTransaction? transaction = null) =>
        Bodies(connection, $"SELECT {Entry("r")} FROM register_entry r WHERE r.seq = @seq", new { seq }, transaction)
            .SingleOrDefault().Body;

    /// <summary>Three columns of a query: an entry's number, its body, and its leaf hash from the index that the tree is made from. Whoever
    /// reads them asks <see cref="Whole"/> before anything of the body is used.</summary>
    /// <param name="entry">The name of register_entry in that query.</param>
    internal static string Entry(string entry) =>
        $"{entry}.seq, {entry}.body, (SELECT l.leaf_hash FROM register_entry l {EngineSql.By("register_leaf")} WHERE l.seq = {entry}.seq)";

    /// <summary>The entries of a query whose columns are those of <see cref="Entry"/>, each checked as it is read, one at a time.</summary>
    /// <exception cref="DamagedEntryException">An entry is not as it was recorded.</exception>
    internal static IEnumerable<(long Seq, byte[] Body)> Bodies(
        DbConnection connection, string sql, object? parameters, DbTransaction? transaction = null) =>
        connection.Query<(long Seq, byte[] Body, byte[] Leaf)>(sql, parameters, transaction, buffered: false)
            .Select(row => (row.Seq, Whole(row.Seq, row.Body, row.Leaf)));

    /// <summary>The body of an entry, if it still has the hash that stands in the tree.</summary>
    /// <exception cref="DamagedEntryException">It has another.</exception>
    internal static byte[] Whole(long seq, byte[] body, byte[]? leaf) => IsWhole(body, leaf) ? body : throw new DamagedEntryException(seq);

    /// <summary>Whether a body still has the hash that stands in the tree.</summary>
    internal static bool IsWhole(byte[] body, byte[]? leaf) =>
        leaf?.Length == TreeHash.Length && MerkleTree.LeafHash(body) == new TreeHash(leaf);

    /// <summary>Every entry of some kinds after an entry, the newest first and one at a time. They are not checked.</summary>
    internal static IEnumerable<(long Seq, byte[] Body, byte[] Leaf, string Kind)> Backwards(
        WriteTransaction transaction, IEnumerable<string> kinds, long after) =>
        transaction.Connection.Query<(long, byte[], byte[], string)>(
            $"SELECT {Entry("r")}, r.kind FROM register_entry r WHERE r.seq > @after AND r.kind IN @kinds ORDER BY r.seq DESC",
            new { kinds, after }, transaction.Transaction, buffered: false);

    /// <summary>The root over entries <paramref name="start"/> + 1 to <paramref name="start"/>
    /// + <paramref name="count"/>, for <see cref="Proofs"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The register has fewer entries.</exception>
    public static TreeHash RootOf(DbConnection connection, long start, long count)
    {
        var edge = TreeEdge.Empty;
        foreach (var leaf in Leaves(connection, start, count))
        {
            edge = edge.Append(leaf);
        }

        return edge.Size == count
            ? edge.Root
            : throw new ArgumentOutOfRangeException(nameof(count), count, $"After entry {start} there are only {edge.Size} entries.");
    }

    /// <summary>Rebuilds the register's head from the leaf hashes, and checks that the last entry still has its hash.</summary>
    /// <param name="connection">The store.</param>
    /// <param name="sizes">The sizes at which the root is wanted too, where the register is that long.</param>
    /// <exception cref="CannotStartException">An entry is missing, or the last one was altered.</exception>
    internal static (RegisterHead Head, IReadOnlyDictionary<long, TreeHash> Roots) ReadHead(
        DbConnection connection, IReadOnlySet<long> sizes)
    {
        var head = RegisterHead.Empty;
        var roots = new Dictionary<long, TreeHash> { [0] = head.Edge.Root };
        foreach (var leaf in Leaves(connection, 0, long.MaxValue))
        {
            head = head.Append(leaf);
            if (sizes.Contains(head.Size))
            {
                roots[head.Size] = head.Edge.Root;
            }
        }

        return head.Size == 0 || IsWhole(connection, head.Size)
            ? (head, roots)
            : throw new CannotStartException(
                $"Entry {head.Size} of the register is missing or altered: restore the last backup before anything is recorded.");
    }

    private static bool IsWhole(DbConnection connection, long seq)
    {
        try
        {
            return BodyOf(connection, seq) is not null;
        }
        catch (DamagedEntryException)
        {
            return false;
        }
    }

    // Read one at a time, so that a large register does not need to fit in memory.
    private static IEnumerable<TreeHash> Leaves(DbConnection connection, long start, long count) => connection
        .Query<byte[]>(
            $"SELECT leaf_hash FROM register_entry {EngineSql.By("register_leaf")} WHERE seq > @start ORDER BY seq LIMIT @count",
            new { start, count },
            buffered: false)
        .Select(hash => new TreeHash(hash));

    // The columns as the store returns them.
    private sealed record EntryRow(byte[] LeafHash, byte[] Body);
}
