using System.Globalization;
using Inspect.Ledger;
using Inspect.Station.Storage;

namespace Inspect.Station.Prove;

/// <summary>The register page's answer about a slip, an earlier checkpoint or an export, in words.</summary>
/// <param name="IsGood">Whether everything agrees.</param>
/// <param name="Title">The answer in a few words.</param>
/// <param name="Sentences">The details, a sentence or two each.</param>
public sealed record ProofAnswer(bool IsGood, string Title, IReadOnlyList<string> Sentences)
{
    /// <summary>About an exported register.</summary>
    public static ProofAnswer Of(RegisterFinding finding) => new(
        finding.IsSound,
        finding.IsSound ? "The export is whole" : "The export is broken",
        finding is { IsSound: true, Key: { } key }
            ? [finding.Sentence, finding.IsSignerProven
                ? $"Signed by the key you gave, or by one that it vouches for: {key.Fingerprint}"
                : $"Signed by a key from the file itself, so the signer is unproven: {key.Fingerprint}. Give the public key to prove it."]
            : [finding.Sentence]);

    /// <summary>About what a paper says about the register.</summary>
    /// <param name="heard">The result of the comparison.</param>
    /// <param name="paper">What the paper is: a slip, a checkpoint.</param>
    /// <param name="size">How many entries it states.</param>
    /// <param name="now">How many there are.</param>
    public static ProofAnswer Of(Heard heard, string paper, long size, long now) => heard switch
    {
        Heard.Agrees => new(
            true, $"The {paper} and the register agree",
            [$"The register still begins with the {Number(size)} entries it had when the {paper} was made, unaltered."]),
        Heard.Differs => new(
            false, $"The {paper} and the register differ",
            [$"The first {Number(size)} entries have another root than the {paper} says. "
                + $"Read the {paper} again; if you read it right, an entry was altered since, or the {paper} is false."]),
        _ => new(
            false, $"The {paper} has more entries than the register",
            [$"The {paper} was made when the register had {Number(size)} entries, and it has {Number(now)} now: "
                + $"entries were lost, the store was restored from an older backup, or the {paper} is another station's."]),
    };

    /// <summary>About a checkpoint that somebody kept: who signed it, and whether the register still begins with its entries.</summary>
    /// <param name="earlier">The checkpoint.</param>
    /// <param name="signer">The key of this station that signed it, or null.</param>
    /// <param name="trusted">The key that the person who asks has from elsewhere, or null.</param>
    /// <param name="checkpoints">The register.</param>
    /// <param name="key">The key that signs now, with the statements that lead to it.</param>
    /// <param name="now">How many entries there are.</param>
    public static ProofAnswer Of(
        Checkpoint earlier, SigningKey? signer, PublicKey? trusted, Checkpoints checkpoints, StationKey key, long now)
    {
        if (signer is null)
        {
            return new(false, "The checkpoint is not of this register", [
                earlier.Origin == key.Public.Name
                    ? $"It calls itself one of \"{earlier.Origin}\", and no key that ever signed here has signed it: it was altered, "
                        + "or it is false."
                    : $"It is a checkpoint of \"{earlier.Origin}\", and this register is \"{key.Public.Name}\"."]);
        }

        var statements = key.Successions.Select(
            statement => KeySuccession.TryParse(statement, out var succession) ? succession : null).OfType<KeySuccession>();
        if (trusted is not null && !KeyChain.Of(trusted, statements).Keys.Contains(signer.Key))
        {
            return new(false, "The checkpoint is signed by another key", [
                $"Key {signer.Number} of this station signed it, {signer.Key.Fingerprint}. "
                    + "The key you gave is another, and does not vouch for it: a key vouches for later ones only."]);
        }

        var heard = Of(checkpoints.Hear(earlier), "checkpoint", earlier.Size, now);
        var signed = signer.Key == key.Public
            ? $"It is signed by the key that signs now: {signer.Key.Fingerprint}."
            : $"It is signed by key {signer.Number} of this station, {signer.Key.Fingerprint}; "
                + $"each key since was vouched for by the one before, down to the one that signs now, {key.Public.Fingerprint}.";
        return heard with { Sentences = [.. heard.Sentences, signed] };
    }

    /// <summary>The same where the store is known to be damaged: its hashes can agree while an entry does not.</summary>
    public ProofAnswer In(StoreState store) => !IsGood ? this
        : store.Faults is { Count: > 0 } faults
            ? new(false, "The hashes agree, but the store is damaged", [.. Sentences, .. faults.Take(3)])
        : this with { Sentences = [.. Sentences, store.Check] };

    private static string Number(long number) => number.ToString("N0", CultureInfo.InvariantCulture);
}
