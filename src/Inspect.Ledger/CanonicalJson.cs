using System.Buffers;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Inspect.Ledger;

/// <summary>JSON with one spelling for each value, after RFC 8785. Anyone can hash a record and check its hash.</summary>
/// <remarks>
/// It takes objects, arrays, text, true, false and the integers that RFC 7493 calls exact, up to 2^53 - 1 either way. Null is refused:
/// leave the member out. Any other number is refused too: RFC 8785 writes numbers as ECMAScript does and .NET does not, and an exact
/// decimal is written as text.
/// </remarks>
public static class CanonicalJson
{
    internal const long LargestExactInteger = (1L << 53) - 1;

    // Refuses half a surrogate pair, where the default encoding would write a replacement character.
    private static readonly UTF8Encoding StrictUtf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    private static readonly SearchValues<char> Escaped =
        SearchValues.Create([.. Enumerable.Range(0, 0x20).Select(code => (char)code), '"', '\\']);

    /// <summary>Every escape that the canonical form has.</summary>
    internal static readonly IReadOnlySet<string> Escapes =
        Enumerable.Range(0, 128).Select(code => (char)code).Where(Escaped.Contains).Select(EscapeOf).ToHashSet(StringComparer.Ordinal);

    /// <summary>Writes a value as its canonical UTF-8 bytes.</summary>
    /// <exception cref="ArgumentException">The value has a null, a number that is not an exact integer,
    /// or text with half a surrogate pair.</exception>
    public static byte[] Write(JsonNode value)
    {
        var buffer = new ArrayBufferWriter<byte>();
        Write(value, buffer);
        return buffer.WrittenSpan.ToArray();
    }

    /// <summary>Whether the bytes are exactly the canonical form of a value.</summary>
    public static bool IsCanonical(ReadOnlySpan<byte> utf8) => CanonicalScan.Holds(utf8, out _);

    /// <summary>Reads bytes that are the canonical form of a value, and refuses any other.</summary>
    public static bool TryParse(ReadOnlySpan<byte> utf8, [NotNullWhen(true)] out JsonNode? value)
    {
        value = IsCanonical(utf8) ? JsonNode.Parse(utf8) : null;
        return value is not null;
    }

    private static void Write(JsonNode? node, ArrayBufferWriter<byte> buffer)
    {
        switch (node)
        {
            case JsonObject members:
                WriteObject(members, buffer);
                break;
            case JsonArray items:
                WriteArray(items, buffer);
                break;
            case JsonValue value:
                WriteValue(value, buffer);
                break;
            default:
                throw new ArgumentException("Canonical JSON here takes no null: leave the member out.");
        }
    }

    private static void WriteObject(JsonObject members, ArrayBufferWriter<byte> buffer)
    {
        buffer.Write("{"u8);
        var first = true;
        // RFC 8785 section 3.2.3: by UTF-16 code units, which is how .NET compares ordinally.
        foreach (var (name, member) in members.OrderBy(pair => pair.Key, StringComparer.Ordinal))
        {
            if (!first)
            {
                buffer.Write(","u8);
            }

            WriteText(name, buffer);
            buffer.Write(":"u8);
            Write(member, buffer);
            first = false;
        }

        buffer.Write("}"u8);
    }

    private static void WriteArray(JsonArray items, ArrayBufferWriter<byte> buffer)
    {
        buffer.Write("["u8);
        for (var i = 0; i < items.Count; i++)
        {
            if (i > 0)
            {
                buffer.Write(","u8);
            }

            Write(items[i], buffer);
        }

        buffer.Write("]"u8);
    }

    private static void WriteValue(JsonValue value, ArrayBufferWriter<byte> buffer)
    {
        switch (value.GetValueKind())
        {
            case JsonValueKind.True:
                buffer.Write("true"u8);
                break;
            case JsonValueKind.False:
                buffer.Write("false"u8);
                break;
            case JsonValueKind.String when value.TryGetValue<string>(out var text):
                WriteText(text, buffer);
                break;
            case JsonValueKind.Number:
                buffer.Write(Encoding.ASCII.GetBytes(IntegerText(value)));
                break;
            default:
                throw new ArgumentException($"'{value.ToJsonString()}' has no canonical form here: write it as text.");
        }
    }

    private static string IntegerText(JsonValue value)
    {
        var written = value.ToJsonString();
        if (!long.TryParse(written, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var integer)
            || integer is > LargestExactInteger or < -LargestExactInteger
            || integer.ToString(CultureInfo.InvariantCulture) != written)
        {
            throw new ArgumentException($"'{written}' is not an exact integer: write it as text.");
        }

        return written;
    }

    // RFC 8785 section 3.2.2.2: only what JSON forbids is escaped, in its short form where there is one.
    private static void WriteText(string text, ArrayBufferWriter<byte> buffer)
    {
        buffer.Write("\""u8);
        var rest = text.AsSpan();
        while (!rest.IsEmpty)
        {
            var plain = rest.IndexOfAny(Escaped);
            plain = plain < 0 ? rest.Length : plain;
            StrictUtf8.GetBytes(rest[..plain], buffer);
            rest = rest[plain..];
            if (!rest.IsEmpty)
            {
                buffer.Write(Encoding.ASCII.GetBytes(EscapeOf(rest[0])));
                rest = rest[1..];
            }
        }

        buffer.Write("\""u8);
    }

    private static string EscapeOf(char character) => character switch
    {
        '"' => "\\\"",
        '\\' => "\\\\",
        '\b' => "\\b",
        '\t' => "\\t",
        '\n' => "\\n",
        '\f' => "\\f",
        '\r' => "\\r",
        _ => "\\u" + ((int)character).ToString("x4", CultureInfo.InvariantCulture),
    };
}
