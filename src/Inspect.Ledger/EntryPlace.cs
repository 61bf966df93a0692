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

    /// <summary>Reads the place that a body names. Bytes that are not canonical name none.</summary>
    public static bool TryRead(ReadOnlySpan<byte> body, out EntryPlace place)
    {
        place = CanonicalScan.Holds(body, out var named) ? named.GetValueOrDefault() : default;
        return named is not null;
    }
}
