using System.Text.Json.Nodes;

namespace Inspect.Ledger;

/// <summary>What the check keeps of one line of an exported register.</summary>
/// <param name="Number">The line's number, from 1.</param>
/// <param name="Hash">Its leaf hash, whatever is in it.</param>
/// <param name="Place">The place that it names, if it is an entry.</param>
/// <param name="Closing">Its content, if it is the last line.</param>
/// <param name="Problem">Why it is neither, after the words "Line 3"; null when it is one of them.</param>
public sealed record RegisterLine(long Number, TreeHash Hash, EntryPlace? Place, RegisterClosing? Closing, string? Problem)
{
    /// <summary>Whether the line is longer than any entry, so that it was not read.</summary>
    internal bool IsEndless { get; init; }

    /// <summary>The number that the entry names; null when the line is not an entry.</summary>
    public long? Seq => Place?.Seq;

    /// <summary>The leaf hash that this line expects before it; null when it is neither an entry nor the last line.</summary>
    public TreeHash? Prior => Place?.Prior ?? Closing?.Prior;

    /// <summary>The lines of a piece of the file. Pieces may be read at once, in any order.</summary>
    public static IReadOnlyList<RegisterLine> In(WholeLines piece)
    {
        if (piece.IsEndless)
        {
            return [new RegisterLine(piece.First, default, null, null, null) { IsEndless = true }];
        }

        var lines = new List<RegisterLine>();
        for (var rest = piece.Bytes.Span; !rest.IsEmpty;)
        {
            var newline = rest.IndexOf((byte)'\n');
            lines.Add(Read(piece.First + lines.Count, newline < 0 ? rest : rest[..newline]));
            rest = newline < 0 ? [] : rest[(newline + 1)..];
        }

        return lines;
    }

    private static RegisterLine Read(long number, ReadOnlySpan<byte> utf8)
    {
        var hash = MerkleTree.LeafHash(utf8);
        if (!CanonicalScan.Holds(utf8, out var place))
        {
            return new RegisterLine(number, hash, null, null, Unreadable(number, utf8));
        }

        if (place is not null)
        {
            return new RegisterLine(number, hash, place, null, null);
        }

        if (JsonNode.Parse(utf8) is JsonObject line && RegisterClosing.IsMeant(line))
        {
            return RegisterClosing.TryRead(line, out var closing)
                ? new RegisterLine(number, hash, null, closing, null)
                : new RegisterLine(number, hash, null, null, "has a checkpoint whose parts cannot be read or do not belong together");
        }

        var problem = $"has no '{EntryPlace.SeqMember}' and '{EntryPlace.PriorMember}' that give its place";
        return new RegisterLine(number, hash, null, null, problem);
    }

    // A mail program or an editor may change a whole file. The sentence says so, because nobody altered an entry.
    private static string Unreadable(long number, ReadOnlySpan<byte> utf8) =>
        utf8.EndsWith("\r"u8) ? "ends in a carriage return: a program changed the ends of the lines, so export the register again"
        : number > 1 ? "is not canonical JSON (RFC 8785)"
        : utf8.StartsWith("\uFEFF"u8) ? "begins with a byte order mark, which a program added: export the register again"
        : utf8.StartsWith("{"u8) ? "is not canonical JSON (RFC 8785)"
        : "does not begin as an entry does: this may be another file and not an exported register";
}
