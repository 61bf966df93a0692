namespace Inspect.Ledger;

/// <summary>The state of a register after its last entry: the tree's right edge, and the last leaf, which the next entry names.</summary>
/// <remarks>A head never changes. Appending gives a new one, so a transaction that fails keeps the old one.</remarks>
public sealed record RegisterHead
{
    private readonly TreeHash _lastLeaf;

    private RegisterHead(TreeEdge edge, TreeHash lastLeaf)
    {
        Edge = edge;
        _lastLeaf = lastLeaf;
    }

    /// <summary>The head of a register without entries.</summary>
    public static RegisterHead Empty { get; } = new(TreeEdge.Empty, TreeHash.OfEmptyTree);

    /// <summary>The hashes that the root is computed from and the next entry is appended to.</summary>
    public TreeEdge Edge { get; }

    /// <summary>How many entries there are.</summary>
    public long Size => Edge.Size;

    /// <summary>The place of the entry that comes next.</summary>
    public EntryPlace Next => new(Size + 1, _lastLeaf);

    /// <summary>The head after an entry with this leaf hash.</summary>
    public RegisterHead Append(TreeHash leaf) => new(Edge.Append(leaf), leaf);
}
