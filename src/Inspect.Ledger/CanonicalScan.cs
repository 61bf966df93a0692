using System.Buffers.Text;
using System.Text;
using System.Text.Json;
using System.Text.Unicode;

namespace Inspect.Ledger;

/// <summary>Reads bytes once, token by token, and says whether they are the canonical form of a value, and which place in the register the
/// value names. Nothing is kept of it and nothing is written anew.</summary>
internal static class CanonicalScan
{
    // As deep as the reader goes.
    private const int Deepest = 64;

    /// <summary>Whether the bytes are exactly what <see cref="CanonicalJson.Write(System.Text.Json.Nodes.JsonNode)"/> gives for their
    /// value.</summary>
    /// <param name="utf8">The bytes.</param>
    /// <param name="place">The place that the value names; null when it is not an entry.</param>
    public static bool Holds(ReadOnlySpan<byte> utf8, out EntryPlace? place)
    {
        place = null;
        try
        {
            return Utf8.IsValid(utf8) && AreCanonical(utf8, ref place);
        }
        catch (JsonException)
        {
            return false;
        }
    }

    private static bool AreCanonical(ReadOnlySpan<byte> utf8, ref EntryPlace? place)
    {
        var reader = new Utf8JsonReader(utf8);
        // The name read last in the object at each depth, without its quotes: members are in the order of their names.
        Span<Range> names = stackalloc Range[Deepest + 1];
        var (before, length, number, prior, isSeq, isPrior) = (JsonTokenType.None, 0L, (long?)null, (TreeHash?)null, false, false);
        while (reader.Read())
        {
            var token = reader.TokenType;
            length += LengthOf(token, reader.ValueSpan.Length) + (IsAfterComma(before, token) ? 1 : 0);
            switch (token)
            {
                case JsonTokenType.StartObject:
                    names[reader.CurrentDepth + 1] = default;
                    break;
                case JsonTokenType.PropertyName:
                    var start = (int)reader.TokenStartIndex + 1;
                    var name = start..(start + reader.ValueSpan.Length);
                    if (!HasCanonicalEscapes(ref reader) || !IsBefore(utf8, names[reader.CurrentDepth], name))
                    {
                        return false;
                    }

                    names[reader.CurrentDepth] = name;
                    isSeq = reader.CurrentDepth == 1 && utf8[name].SequenceEqual("seq"u8);
                    isPrior = reader.CurrentDepth == 1 && utf8[name].SequenceEqual("prior"u8);
                    break;
                case JsonTokenType.String when !HasCanonicalEscapes(ref reader):
                    return false;
                case JsonTokenType.String when before == JsonTokenType.PropertyName && isPrior:
                    prior = TreeHash.TryParseHex(reader.GetString(), out var hash) ? hash : null;
                    break;
                case JsonTokenType.Number:
                    if (!IsExactInteger(reader.ValueSpan, out var integer))
                    {
                        return false;
                    }

                    number = before == JsonTokenType.PropertyName && isSeq ? integer : number;
                    break;
                case JsonTokenType.Null:
                    return false;
                default:
                    break;
            }

            before = token;
        }

        // Tokens that take as many bytes as there are have no white space between them.
        if (length != utf8.Length)
        {
            return false;
        }

        place = number is { } seq && prior is { } leaf ? new EntryPlace(seq, leaf) : null;
        return true;
    }

    /// <summary>How many bytes a token takes, with the colon behind a name.</summary>
    private static int LengthOf(JsonTokenType token, int value) => token switch
    {
        JsonTokenType.PropertyName => value + 3,
        JsonTokenType.String => value + 2,
        JsonTokenType.Number or JsonTokenType.True or JsonTokenType.False or JsonTokenType.Null => value,
        _ => 1,
    };

    private static bool IsAfterComma(JsonTokenType before, JsonTokenType token) =>
        token is not (JsonTokenType.EndObject or JsonTokenType.EndArray)
        && before is not (JsonTokenType.None or JsonTokenType.StartObject or JsonTokenType.StartArray or JsonTokenType.PropertyName);

    private static bool IsExactInteger(ReadOnlySpan<byte> digits, out long integer) =>
        Utf8Parser.TryParse(digits, out integer, out int read)
        && read == digits.Length
        && integer is <= CanonicalJson.LargestExactInteger and >= -CanonicalJson.LargestExactInteger
        && !digits.SequenceEqual("-0"u8);

    private static bool HasCanonicalEscapes(ref Utf8JsonReader reader)
    {
        var text = reader.ValueIsEscaped ? reader.ValueSpan : [];
        for (var at = text.IndexOf((byte)'\\'); at >= 0; at = text.IndexOf((byte)'\\'))
        {
            var length = text[at + 1] == 'u' ? 6 : 2;
            if (!CanonicalJson.Escapes.Contains(Encoding.ASCII.GetString(text.Slice(at, length))))
            {
                return false;
            }

            text = text[(at + length)..];
        }

        return true;
    }

    /// <summary>Whether a name comes before another, by UTF-16 code units; none comes before any.</summary>
    private static bool IsBefore(ReadOnlySpan<byte> utf8, Range earlier, Range later)
    {
        if (earlier.End.Value == 0)
        {
            return true;
        }

        var one = utf8[earlier];
        var other = utf8[later];
        return IsPlain(one) && IsPlain(other)
            ? one.SequenceCompareTo(other) < 0
            : string.CompareOrdinal(TextOf(utf8, earlier), TextOf(utf8, later)) < 0;
    }

    // In ASCII without escapes, the order of bytes is that of UTF-16 code units.
    private static bool IsPlain(ReadOnlySpan<byte> name) => Ascii.IsValid(name) && !name.Contains((byte)'\\');

    private static string TextOf(ReadOnlySpan<byte> utf8, Range name)
    {
        var reader = new Utf8JsonReader(utf8[(name.Start.Value - 1)..(name.End.Value + 1)]);
        reader.Read();
        return reader.GetString()!;
    }
}
