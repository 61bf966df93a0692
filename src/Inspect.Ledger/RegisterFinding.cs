namespace Inspect.Ledger;

/// <summary>What is wrong with an exported register.</summary>
public enum RegisterFault
{
    /// <summary>A line is not canonical JSON, or is neither an entry nor the signed checkpoint.</summary>
    Unreadable,

    /// <summary>An entry's bytes are not those that were recorded.</summary>
    Altered,

    /// <summary>One or more entries are left out.</summary>
    Missing,

    /// <summary>An entry is where another belongs.</summary>
    Swapped,

    /// <summary>A line was added.</summary>
    Inserted,

    /// <summary>The file ends without a signed checkpoint that can be read.</summary>
    NoCheckpoint,

    /// <summary>The entries agree with one another but not with the signed checkpoint.</summary>
    CheckpointDiffers,

    /// <summary>The last line was altered: the signature does not fit the checkpoint and the key in it.</summary>
    WrongSignature,

    /// <summary>The signature is good, but by a key that the given key does not vouch for.</summary>
    WrongSigner,
}

/// <summary>The result of a check of an exported register: sound, or the first broken entry and what is wrong with it.</summary>
/// <param name="Entries">How many entries, from the first, are in order before anything broken.</param>
/// <param name="Fault">What is wrong; null when the register is sound.</param>
/// <param name="Line">The line of the file that is wrong, or before which something is missing; the first is 1. Null when sound.</param>
/// <param name="Entry">The number of the broken entry; null when sound, or when the last line itself is broken.</param>
/// <param name="Sentence">The result in words.</param>
/// <param name="Key">The key named in the file, when the file is sound.</param>
/// <param name="IsSignerProven">Whether the caller gave a key and that key vouches for the signature.
/// Without a key, anybody may have signed.</param>
public sealed record RegisterFinding(
    long Entries, RegisterFault? Fault, long? Line, long? Entry, string Sentence, PublicKey? Key, bool IsSignerProven)
{
    /// <summary>Whether no fault was found. It does not tell who signed.</summary>
    public bool IsSound => Fault is null;
}
