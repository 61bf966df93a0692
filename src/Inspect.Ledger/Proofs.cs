namespace Inspect.Ledger;

/// <summary>The two proofs of RFC 9162: that an entry is in a tree, and that a later tree only adds to an earlier one.</summary>
/// <remarks>
/// A proof is made from the roots of ranges of leaves. The caller supplies these as <c>rootOf(start, count)</c>, from a list or from a
/// store. A check answers yes or no only, because a proof that fails does not show why.
/// </remarks>
public static class Proofs
{
    /// <summary>The inclusion proof of leaf <paramref name="index"/> in a tree of <paramref name="size"/> leaves (RFC 9162
    /// section 2.1.3.1).</summary>
    /// <exception cref="ArgumentOutOfRangeException">The tree has no such leaf.</exception>
    public static IReadOnlyList<TreeHash> Inclusion(long index, long size, Func<long, long, TreeHash> rootOf)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, size);

        var path = new List<TreeHash>();
        var (start, count) = (0L, size);
        while (count > 1)
        {
            var split = MerkleTree.SplitOf(count);
            if (index < start + split)
            {
                path.Add(rootOf(start + split, count - split));
                count = split;
            }
            else
            {
                path.Add(rootOf(start, split));
                (start, count) = (start + split, count - split);
            }
        }

        // The loop meets the widest sibling first; a proof lists them from the leaf up.
        path.Reverse();
        return path;
    }

    /// <summary>Checks that <paramref name="leaf"/> is leaf <paramref name="index"/> of the tree with this
    /// size and root (RFC 9162 section 2.1.3.2).</summary>
    public static bool CheckInclusion(TreeHash leaf, long index, long size, TreeHash root, IReadOnlyList<TreeHash> proof)
    {
        if (index < 0 || index >= size)
        {
            return false;
        }

        var (node, last, hash) = (index, size - 1, leaf);
        foreach (var sibling in proof)
        {
            if (last == 0)
            {
                return false;
            }

            if ((node & 1) == 1 || node == last)
            {
                hash = MerkleTree.NodeHash(sibling, hash);
                (node, last) = ClimbWhileEven(node, last);
            }
            else
            {
                hash = MerkleTree.NodeHash(hash, sibling);
            }

            (node, last) = (node >> 1, last >> 1);
        }

        return last == 0 && hash == root;
    }

    /// <summary>The proof that the tree of <paramref name="second"/> leaves begins with that of <paramref name="first"/> (RFC 9162
    /// section 2.1.4.1).</summary>
    /// <returns>No hashes when the sizes are equal or <paramref name="first"/> is 0.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="first"/> is negative or above <paramref name="second"/>.</exception>
    public static IReadOnlyList<TreeHash> Consistency(long first, long second, Func<long, long, TreeHash> rootOf)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(first);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(first, second);
        if (first == 0)
        {
            return [];
        }

        var path = new List<TreeHash>();
        var (start, count, old) = (0L, second, first);
        while (old < count)
        {
            var split = MerkleTree.SplitOf(count);
            if (old <= split)
            {
                path.Add(rootOf(start + split, count - split));
                count = split;
            }
            else
            {
                path.Add(rootOf(start, split));
                (start, count, old) = (start + split, count - split, old - split);
            }
        }

        // The checker knows the earlier tree's root already. It is sent only when it is not a whole subtree of the later tree.
        if (start > 0)
        {
            path.Add(rootOf(start, count));
        }

        path.Reverse();
        return path;
    }

    /// <summary>Checks that the second tree begins with the first (RFC 9162 section 2.1.4.2).</summary>
    public static bool CheckConsistency(long first, TreeHash firstRoot, long second, TreeHash secondRoot, IReadOnlyList<TreeHash> proof)
    {
        if (first < 0 || first > second)
        {
            return false;
        }

        if (first == 0)
        {
            return proof.Count == 0 && firstRoot == TreeHash.OfEmptyTree && (second > 0 || secondRoot == firstRoot);
        }

        if (first == second)
        {
            return proof.Count == 0 && firstRoot == secondRoot;
        }

        var (node, last) = (first - 1, second - 1);
        while ((node & 1) == 1)
        {
            (node, last) = (node >> 1, last >> 1);
        }

        // A first size that is a power of two is a whole subtree of the second, so the proof leaves its root out. It is put back here.
        var path = long.IsPow2(first) ? [firstRoot, .. proof] : proof;
        if (path.Count == 0)
        {
            return false;
        }

        var (oldHash, newHash) = (path[0], path[0]);
        foreach (var sibling in path.Skip(1))
        {
            if (last == 0)
            {
                return false;
            }

            if ((node & 1) == 1 || node == last)
            {
                oldHash = MerkleTree.NodeHash(sibling, oldHash);
                newHash = MerkleTree.NodeHash(sibling, newHash);
                (node, last) = ClimbWhileEven(node, last);
            }
            else
            {
                newHash = MerkleTree.NodeHash(newHash, sibling);
            }

            (node, last) = (node >> 1, last >> 1);
        }

        return last == 0 && oldHash == firstRoot && newHash == secondRoot;
    }

    // A lone node at the right edge rises unchanged until it is a right child.
    private static (long Node, long Last) ClimbWhileEven(long node, long last)
    {
        while ((node & 1) == 0 && node != 0)
        {
            (node, last) = (node >> 1, last >> 1);
        }

        return (node, last);
    }
}
