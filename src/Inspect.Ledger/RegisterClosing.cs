using System.Diagnostics.CodeAnalysis;
using System.Text.Json.Nodes;

namespace Inspect.Ledger;

/// <summary>The last line of an exported register: the signed checkpoint, the key that signed it, and the
/// statements that lead to that key.</summary>
/// <param name="Checkpoint">The signed note.</param>
/// <param name="Key">The public key of the signature.</param>
/// <param name="Prior">The leaf hash of the last entry, so that the place of a change to that entry is found too.</param>
/// <param name="Successions">The statements by which each older key vouches for the next, in
/// order; empty when the key never changed.</param>
public sealed record RegisterClosing(string Checkpoint, PublicKey Key, TreeHash Prior, IReadOnlyList<string> Successions)
{
    /// <summary>The line as canonical bytes, without its newline.</summary>
    public byte[] ToBytes()
    {
        var line = new JsonObject
        {
            ["checkpoint"] = Checkpoint,
            [EntryPlace.PriorMember] = Prior.ToString(),
            ["publicKey"] = Key.Text,
        };
        if (Successions.Count > 0)
        {
            line["successions"] = new JsonArray([.. Successions.Select(statement => (JsonNode)statement)]);
        }

        return CanonicalJson.Write(line);
    }

    /// <summary>Whether a line is meant as the last one, even if it cannot be read.</summary>
    internal static bool IsMeant(JsonObject line) => line.ContainsKey("checkpoint") && !line.ContainsKey(EntryPlace.SeqMember);

    /// <summary>Reads the line. The statements must lead to the key, one after another. The
    /// checkpoint's signature is not checked here.</summary>
    internal static bool TryRead(JsonObject line, [NotNullWhen(true)] out RegisterClosing? closing)
    {
        closing = null;
        if (TextOf(line["checkpoint"]) is not { } checkpoint
            || !TreeHash.TryParseHex(TextOf(line[EntryPlace.PriorMember]), out var prior)
            || !PublicKey.TryParse(TextOf(line["publicKey"]), out var key))
        {
            return false;
        }

        var successions = new List<string>();
        if (line["successions"] is JsonArray statements)
        {
            successions.AddRange(statements.Select(TextOf).OfType<string>());
        }

        var read = new RegisterClosing(checkpoint, key, prior, successions);
        // Written again and compared, so that a line with any other member is refused.
        closing = read.LeadsToKey() && read.ToBytes().AsSpan().SequenceEqual(CanonicalJson.Write(line)) ? read : null;
        return closing is not null;
    }

    /// <summary>Whether somebody who trusts <paramref name="trusted"/> may trust <see cref="Key"/>: it is the same key, or one that the
    /// statements lead to.</summary>
    internal bool IsVouchedForBy(PublicKey trusted) =>
        Key == trusted
        || Successions.Any(statement => KeySuccession.TryParse(statement, out var succession) && succession.Old == trusted);

    /// <summary>The key statements in the last line of an export, or null when it is not such a line. Each is good by its own signature,
    /// even if the rest of the file is broken.</summary>
    public static IReadOnlyList<KeySuccession>? StatementsIn(string lastLine) =>
        CanonicalJson.TryParse(System.Text.Encoding.UTF8.GetBytes(lastLine), out var value)
        && value is JsonObject line
        && TryRead(line, out var closing)
            ? [.. closing.Successions
                .Select(statement => KeySuccession.TryParse(statement, out var succession) ? succession : null)
                .OfType<KeySuccession>()]
            : null;

    private bool LeadsToKey()
    {
        PublicKey? reached = null;
        foreach (var statement in Successions)
        {
            if (!KeySuccession.TryParse(statement, out var succession) || (reached is not null && succession.Old != reached))
            {
                return false;
            }

            reached = succession.New;
        }

        return reached is null || reached == Key;
    }

    private static string? TextOf(JsonNode? node) => node is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;
}
