using System.Text.Json.Nodes;

namespace Inspect.Ledger;

/// <summary>A line of an exported register, as far as the check needs to remember it.</summary>
/// <param name="Number">The line's number, from 1.</param>
/// <param name="Hash">Its leaf hash, whatever it holds.</param>
/// <param name="Place">Where it says it stands, if it is an entry.</param>
/// <param name="Closing">What it says, if it is the last line.</param>
/// <param name="Problem">Why it is neither.</param>
internal sealed record RegisterLine(long Number, TreeHash Hash, EntryPlace? Place, RegisterClosing? Closing, string? Problem)
{
    /// <summary>The number the entry gives itself; null for a line that is no entry.</summary>
    public long? Seq => Place?.Seq;

    /// <summary>The leaf hash that this line expects before it; null for a line that can be neither entry nor last.</summary>
    public TreeHash? Prior => Place?.Prior ?? Closing?.Prior;

    public static RegisterLine Read(long number, ReadOnlySpan<byte> utf8)
    {
        var hash = MerkleTree.LeafHash(utf8);
        if (!CanonicalJson.TryParse(utf8, out var value))
        {
            return new RegisterLine(number, hash, null, null, Unreadable(number, utf8));
        }

        if (value is JsonObject line)
        {
            if (EntryPlace.TryRead(line, out var place))
            {
                return new RegisterLine(number, hash, place, null, null);
            }

            if (RegisterClosing.IsMeant(line))
            {
                return RegisterClosing.TryRead(line, out var closing)
                    ? new RegisterLine(number, hash, null, closing, null)
                    : new RegisterLine(number, hash, null, null, "holds a checkpoint whose parts cannot be read or do not belong together");
            }
        }

        var problem = $"has no '{EntryPlace.SeqMember}' and '{EntryPlace.PriorMember}' that say where it stands";
        return new RegisterLine(number, hash, null, null, problem);
    }

    // What a mail program or an editor does to a whole file is named as such: nobody altered an entry.
    private static string Unreadable(long number, ReadOnlySpan<byte> utf8) =>
        utf8.EndsWith("\r"u8) ? "ends in a carriage return: some program changed the ends of the lines, so export the register again"
        : number > 1 ? "is not canonical JSON (RFC 8785)"
        : utf8.StartsWith("\uFEFF"u8) ? "begins with a byte order mark, which some program put there: export the register again"
        : utf8.StartsWith("{"u8) ? "is not canonical JSON (RFC 8785)"
        : "does not begin as an entry does: this may be another file than an exported register";
}
