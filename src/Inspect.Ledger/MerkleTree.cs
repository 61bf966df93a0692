using System.Security.Cryptography;

namespace Inspect.Ledger;

/// <summary>The hash tree over the register's entries, as RFC 6962 section 2.1 and RFC 9162 section 2.1.1 define it with SHA-256.</summary>
/// <remarks>
/// A leaf is hashed after a zero byte and a node after a one byte, so that nobody can present a node as an entry.
/// Leaves are counted from 0 as in the RFC; the register's entries are numbered from 1.
/// </remarks>
public static class MerkleTree
{
    /// <summary>The hash of one entry's bytes as a leaf.</summary>
    public static TreeHash LeafHash(ReadOnlySpan<byte> body)
    {
        using var sha = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        sha.AppendData([0x00]);
        sha.AppendData(body);
        Span<byte> hash = stackalloc byte[TreeHash.Length];
        sha.GetHashAndReset(hash);
        return new TreeHash(hash);
    }

    /// <summary>The hash of the node above two subtrees.</summary>
    public static TreeHash NodeHash(TreeHash left, TreeHash right)
    {
        Span<byte> input = stackalloc byte[1 + (2 * TreeHash.Length)];
        input[0] = 0x01;
        left.CopyTo(input[1..]);
        right.CopyTo(input[(1 + TreeHash.Length)..]);
        Span<byte> hash = stackalloc byte[TreeHash.Length];
        SHA256.HashData(input, hash);
        return new TreeHash(hash);
    }

    /// <summary>The root over leaf hashes in order. They are read once and not kept.</summary>
    public static TreeHash Root(IEnumerable<TreeHash> leaves)
    {
        var edge = TreeEdge.Empty;
        foreach (var leaf in leaves)
        {
            edge = edge.Append(leaf);
        }

        return edge.Root;
    }

    /// <summary>The largest power of two below <paramref name="size"/>: where RFC 9162 splits a tree of two or more leaves.</summary>
    internal static long SplitOf(long size) => 1L << (63 - (int)long.LeadingZeroCount(size - 1));
}
