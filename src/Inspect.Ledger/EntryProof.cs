using System.Diagnostics.CodeAnalysis;

namespace Inspect.Ledger;

/// <summary>A proof that an entry is in the register. It is one text, checked with the entry and the station's public key alone.</summary>
/// <remarks>Written as the C2SP tlog-proof specification (version 1) says, without the extra data it allows.</remarks>
/// <param name="Index">The leaf's index in the tree, from 0: the entry's number less 1.</param>
/// <param name="Path">The inclusion proof, from the leaf's sibling up.</param>
/// <param name="Checkpoint">The signed checkpoint of the tree that the proof was made in.</param>
public sealed record EntryProof(long Index, IReadOnlyList<TreeHash> Path, string Checkpoint)
{
    /// <summary>The first line of every such text.</summary>
    public const string Heading = "c2sp.org/tlog-proof@v1";

    /// <summary>The whole text.</summary>
    public string Text => $"{Heading}\n{ProofLines.Write("index", Index, Path, Checkpoint)}";

    /// <summary>Reads the text. It does not check the proof: <see cref="Check"/> does.</summary>
    public static bool TryParse(string text, [NotNullWhen(true)] out EntryProof? proof)
    {
        proof = text.StartsWith(Heading + "\n", StringComparison.Ordinal)
            && ProofLines.TryRead(text[(Heading.Length + 1)..], "index", out var index, out var path, out var checkpoint)
                ? new EntryProof(index, path, checkpoint)
                : null;
        return proof is not null;
    }

    /// <summary>Checks that these bytes are the entry in the register.</summary>
    /// <param name="body">The entry's bytes.</param>
    /// <param name="trusted">The station's public key, known from elsewhere, and the keys that it vouches for.</param>
    /// <returns>Null when the proof is good; otherwise one sentence that says what is wrong.</returns>
    public string? Check(ReadOnlySpan<byte> body, KeyChain trusted)
    {
        if (!Inspect.Ledger.Checkpoint.TryParse(Checkpoint, out var checkpoint, out var signed))
        {
            return "The proof does not end in a checkpoint that can be read.";
        }

        if (trusted.SignerOf(signed) is null)
        {
            return "The checkpoint in the proof is not signed by the key you gave, nor by a key that it is known to vouch for.";
        }

        return Proofs.CheckInclusion(MerkleTree.LeafHash(body), Index, checkpoint.Size, checkpoint.Root, Path)
            ? null
            : $"The entry is not entry {Index + 1} of the register of {checkpoint.Size} entries that the checkpoint vouches for: "
                + "one of the two was altered.";
    }
}
