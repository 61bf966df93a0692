using System.Text.Json.Nodes;

namespace Inspect.Ledger;

/// <summary>An entry's place in the register: its number, and the leaf hash of the entry before it.</summary>
/// <remarks>
/// Every entry's body names its own place, in the members <c>seq</c> and <c>prior</c>. The root over all entries only shows that something
/// was changed. These two members show what and where, in one pass from front to back that keeps two or three lines in memory.
/// </remarks>
/// <param name="Seq">The number of the entry, from 1.</param>
/// <param name="Prior">The leaf hash of the entry before; for the first entry, the root of the empty tree.</param>
public readonly record struct EntryPlace(long Seq, TreeHash Prior)
{
    /// <summary>The member of a body that holds <see cref="Seq"/>.</summary>
    public const string SeqMember = "seq";

    /// <summary>The member of a body that holds <see cref="Prior"/>.</summary>
    public const string PriorMember = "prior";

    /// <summary>Writes the place into a body and gives its canonical bytes. These bytes are hashed and stored.</summary>
    public byte[] Stamp(JsonObject body)
    {
        body[SeqMember] = Seq;
        body[PriorMember] = Prior.ToString();
        return CanonicalJson.Write(body);
    }

    /// <summary>Reads the place that a body names.</summary>
    public static bool TryRead(JsonObject body, out EntryPlace place)
    {
        place = default;
        if (body[SeqMember] is not JsonValue seq || !seq.TryGetValue<long>(out var number)
            || body[PriorMember] is not JsonValue prior || !prior.TryGetValue<string>(out var priorText)
            || !TreeHash.TryParseHex(priorText, out var hash))
        {
            return false;
        }

        place = new EntryPlace(number, hash);
        return true;
    }
}
