using System.Collections.Immutable;
using System.Numerics;

namespace Inspect.Ledger;

/// <summary>The right edge of the tree: all that is needed to append an entry and to compute the root, at any size.</summary>
/// <remarks>
/// It keeps the roots of the complete subtrees that make up the tree, largest first: one for each 1 bit of <see cref="Size"/>. An edge
/// never changes. Appending gives a new one, so keep the earlier edge to go back to an earlier state.
/// </remarks>
public sealed class TreeEdge
{
    private readonly ImmutableArray<TreeHash> _subtrees;

    internal TreeEdge(long size, ImmutableArray<TreeHash> subtrees)
    {
        Size = size;
        _subtrees = subtrees;
    }

    /// <summary>The edge of a tree without leaves.</summary>
    public static TreeEdge Empty { get; } = new(0, []);

    /// <summary>How many leaves the tree has.</summary>
    public long Size { get; }

    /// <summary>The root of the whole tree.</summary>
    public TreeHash Root
    {
        get
        {
            if (Size == 0)
            {
                return TreeHash.OfEmptyTree;
            }

            var root = _subtrees[^1];
            for (var i = _subtrees.Length - 2; i >= 0; i--)
            {
                root = MerkleTree.NodeHash(_subtrees[i], root);
            }

            return root;
        }
    }

    /// <summary>The edge after one more leaf.</summary>
    public TreeEdge Append(TreeHash leaf)
    {
        // As in binary counting, the new leaf completes one larger subtree for each trailing 1 bit of the size.
        var merged = BitOperations.TrailingZeroCount(~Size);
        var kept = _subtrees.Length - merged;
        var last = leaf;
        for (var i = _subtrees.Length - 1; i >= kept; i--)
        {
            last = MerkleTree.NodeHash(_subtrees[i], last);
        }

        return new TreeEdge(Size + 1, [.. _subtrees.AsSpan(0, kept), last]);
    }
}
