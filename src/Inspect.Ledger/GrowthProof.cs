using System.Diagnostics.CodeAnalysis;

namespace Inspect.Ledger;

/// <summary>A proof that a register only grew: its tree at a later checkpoint begins with its tree at an earlier one.</summary>
/// <remarks>
/// Written in the form in which the C2SP tlog-witness specification has a log send a new checkpoint to a witness, so that it can be
/// sent to one.
/// </remarks>
/// <param name="OldSize">How many entries the earlier tree had.</param>
/// <param name="Path">The consistency proof.</param>
/// <param name="Checkpoint">The signed checkpoint of the later tree.</param>
public sealed record GrowthProof(long OldSize, IReadOnlyList<TreeHash> Path, string Checkpoint)
{
    /// <summary>The word that its first line begins with.</summary>
    public const string Word = "old";

    /// <summary>The whole text.</summary>
    public string Text => ProofLines.Write(Word, OldSize, Path, Checkpoint);

    /// <summary>Reads the text. It does not check the proof: <see cref="Check"/> does.</summary>
    public static bool TryParse(string text, [NotNullWhen(true)] out GrowthProof? proof)
    {
        proof = ProofLines.TryRead(text, Word, out var size, out var path, out var checkpoint)
            ? new GrowthProof(size, path, checkpoint)
            : null;
        return proof is not null;
    }

    /// <summary>Checks that the register in this proof begins with the register of an earlier checkpoint.</summary>
    /// <param name="earlier">The earlier signed checkpoint, kept since then.</param>
    /// <param name="trusted">The station's public key, known from elsewhere, and the keys that it vouches
    /// for. One of them has signed each checkpoint.</param>
    /// <returns>Null when it does; otherwise one sentence that says what is wrong.</returns>
    public string? Check(string earlier, KeyChain trusted)
    {
        if (!Inspect.Ledger.Checkpoint.TryParse(earlier, out var old, out var oldSigned))
        {
            return "The earlier checkpoint cannot be read.";
        }

        if (!Inspect.Ledger.Checkpoint.TryParse(Checkpoint, out var current, out var signed))
        {
            return "The proof does not end in a checkpoint that can be read.";
        }

        if (trusted.SignerOf(oldSigned) is null || trusted.SignerOf(signed) is null)
        {
            return $"The {(trusted.SignerOf(oldSigned) is null ? "earlier" : "later")} checkpoint is not signed by the key you gave, "
                + "nor by a key that it is known to vouch for.";
        }

        if (old.Size != OldSize)
        {
            return $"The proof starts from {OldSize} entries, and the earlier checkpoint has {old.Size}.";
        }

        return Proofs.CheckConsistency(old.Size, old.Root, current.Size, current.Root, Path)
            ? null
            : $"The register of {current.Size} entries does not begin with the {old.Size} entries of the earlier checkpoint: "
                + "what was recorded then was altered.";
    }
}
