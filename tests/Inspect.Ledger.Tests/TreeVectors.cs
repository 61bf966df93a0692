namespace Inspect.Ledger.Tests;

/// <summary>Known trees: the eight test leaves that implementations of Certificate Transparency (RFC 6962) share, with their published
/// hashes.</summary>
internal static class TreeVectors
{
    public static byte[][] Bodies { get; } =
    [
        .. new[] { "", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f" }
            .Select(Convert.FromHexString),
    ];

    public static TreeHash[] Leaves { get; } = [.. Bodies.Select(body => MerkleTree.LeafHash(body))];

    /// <summary>Leaves of a tree of any size: entry i is the text of i.</summary>
    public static TreeHash[] Counted(int size) =>
        [.. Enumerable.Range(0, size).Select(i => MerkleTree.LeafHash(System.Text.Encoding.ASCII.GetBytes($"entry {i}")))];

    public static TreeHash Hash(string hex) =>
        TreeHash.TryParseHex(hex, out var hash) ? hash : throw new ArgumentException(hex, nameof(hex));

    /// <summary>The root by the recursive definition of RFC 6962 section 2.1, with no use of the edge.</summary>
    public static TreeHash RootByDefinition(ReadOnlySpan<TreeHash> leaves)
    {
        if (leaves.IsEmpty)
        {
            return Hash("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
        }

        if (leaves.Length == 1)
        {
            return leaves[0];
        }

        var split = 1;
        while (2 * split < leaves.Length)
        {
            split *= 2;
        }

        var input = new byte[65];
        input[0] = 1;
        RootByDefinition(leaves[..split]).CopyTo(input.AsSpan(1));
        RootByDefinition(leaves[split..]).CopyTo(input.AsSpan(33));
        return new TreeHash(System.Security.Cryptography.SHA256.HashData(input));
    }

    public static TreeHash Altered(TreeHash hash)
    {
        var bytes = hash.ToArray();
        bytes[31] ^= 1;
        return new TreeHash(bytes);
    }
}
