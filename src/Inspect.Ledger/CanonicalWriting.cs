using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Inspect.Ledger;

/// <summary>Canonical bytes written member by member, without a tree of nodes between.</summary>
/// <remarks>
/// The one who writes keeps the order of RFC 8785, section 3.2.3: members by their names, ordinally. Texts come out as the same RFC has
/// them, because the encoder escapes what JSON forbids in the same short forms. It writes rare characters as <c>\u</c> escapes; such
/// bytes are written again from a tree. Where a hash is made of the bytes, <see cref="CanonicalJson.IsCanonical"/> is asked first.
/// </remarks>
public static class CanonicalWriting
{
    private static readonly JsonWriterOptions Options = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        SkipValidation = true,
    };

    /// <summary>The bytes of what is written.</summary>
    /// <param name="value">What is written.</param>
    /// <param name="write">Writes it, members in their order.</param>
    /// <param name="size">About how many bytes it will be; more are no fault.</param>
    public static ReadOnlyMemory<byte> Bytes<T>(T value, Action<Utf8JsonWriter, T> write, int size = 1024)
    {
        var utf8 = new ArrayBufferWriter<byte>(size);
        using (var to = new Utf8JsonWriter(utf8, Options))
        {
            write(to, value);
        }

        return utf8.WrittenSpan.IndexOf("\\u"u8) < 0 ? utf8.WrittenMemory : CanonicalJson.Write(JsonNode.Parse(utf8.WrittenSpan)!);
    }
}
