using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Unicode;

namespace Inspect.Ledger;

/// <summary>Reads bytes once, front to back, and says whether they are the canonical form of a value, and which place in the register the
/// value names. Nothing is kept of it and nothing is written anew.</summary>
internal ref struct CanonicalScan
{
    // As deep as a JSON reader of the base class library goes.
    private const int Deepest = 64;
    private static readonly SearchValues<byte> InInteger = SearchValues.Create("-0123456789"u8);

    private readonly ReadOnlySpan<byte> _utf8;
    private readonly bool _isPlain;
    private int _at;
    private long? _seq;
    private TreeHash? _prior;

    private CanonicalScan(ReadOnlySpan<byte> utf8)
    {
        _utf8 = utf8;
        _isPlain = IsPlain(utf8);
    }

    /// <summary>Whether the bytes are exactly what <see cref="CanonicalJson.Write(System.Text.Json.Nodes.JsonNode)"/> gives for their
    /// value.</summary>
    /// <param name="utf8">The bytes.</param>
    /// <param name="place">The place that the value names; null when it is not an entry.</param>
    public static bool Holds(ReadOnlySpan<byte> utf8, out EntryPlace? place)
    {
        var scan = new CanonicalScan(utf8);
        // Control characters stand nowhere in it: between tokens there is no white space, and in texts they are escaped.
        var isCanonical = Utf8.IsValid(utf8) && !utf8.ContainsAnyInRange((byte)0, (byte)0x1F) && scan.Value(0) && scan._at == utf8.Length;
        place = isCanonical && scan._seq is { } seq && scan._prior is { } prior ? new EntryPlace(seq, prior) : null;
        return isCanonical;
    }

    private readonly byte Next => _at < _utf8.Length ? _utf8[_at] : (byte)0;

    private bool Value(int depth) => Next switch
    {
        (byte)'"' => Text(),
        (byte)'{' => depth < Deepest && Members(depth),
        (byte)'[' => depth < Deepest && Items(depth),
        (byte)'t' => Takes("true"u8),
        (byte)'f' => Takes("false"u8),
        _ => Integer(),
    };

    private bool Members(int depth)
    {
        _at++;
        if (Takes("}"u8))
        {
            return true;
        }

        var before = default(Range?);
        do
        {
            var start = _at;
            if (!Text())
            {
                return false;
            }

            var name = start.._at;
            if ((before is { } earlier && !IsBefore(_utf8[earlier], _utf8[name])) || !Takes(":"u8))
            {
                return false;
            }

            start = _at;
            if (!Value(depth + 1))
            {
                return false;
            }

            if (depth == 0)
            {
                NotePlace(_utf8[name], _utf8[start.._at]);
            }

            before = name;
        }
        while (Takes(","u8));
        return Takes("}"u8);
    }

    private bool Items(int depth)
    {
        _at++;
        if (Takes("]"u8))
        {
            return true;
        }

        do
        {
            if (!Value(depth + 1))
            {
                return false;
            }
        }
        while (Takes(","u8));
        return Takes("]"u8);
    }

    private bool Text()
    {
        if (!Takes("\""u8))
        {
            return false;
        }

        while (_utf8[_at..].IndexOfAny((byte)'"', (byte)'\\') is var plain and >= 0)
        {
            _at += plain;
            if (_utf8[_at] == '"')
            {
                _at++;
                return true;
            }

            var length = _utf8[_at..].StartsWith("\\u"u8) ? 6 : 2;
            if (_at + length > _utf8.Length || !CanonicalJson.Escapes.Contains(Encoding.ASCII.GetString(_utf8.Slice(_at, length))))
            {
                return false;
            }

            _at += length;
        }

        return false;
    }

    private bool Integer()
    {
        var length = _utf8[_at..].IndexOfAnyExcept(InInteger);
        var digits = length < 0 ? _utf8[_at..] : _utf8.Slice(_at, length);
        _at += digits.Length;
        Span<byte> written = stackalloc byte[20];
        return IsInteger(digits, out var integer)
            && integer is <= CanonicalJson.LargestExactInteger and >= -CanonicalJson.LargestExactInteger
            && integer.TryFormat(written, out var count, default, CultureInfo.InvariantCulture)
            && digits.SequenceEqual(written[..count]);
    }

    private static bool IsInteger(ReadOnlySpan<byte> digits, out long integer) =>
        long.TryParse(digits, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out integer);

    private bool Takes(ReadOnlySpan<byte> expected)
    {
        if (!_utf8[_at..].StartsWith(expected))
        {
            return false;
        }

        _at += expected.Length;
        return true;
    }

    private void NotePlace(ReadOnlySpan<byte> name, ReadOnlySpan<byte> value)
    {
        if (name.SequenceEqual("\"seq\""u8))
        {
            _seq = IsInteger(value, out var seq) ? seq : null;
        }
        else if (name.SequenceEqual("\"prior\""u8) && value.StartsWith("\""u8))
        {
            _prior = TreeHash.TryParseHex(Encoding.UTF8.GetString(value[1..^1]), out var prior) ? prior : null;
        }
    }

    /// <summary>Whether a name comes before another, by UTF-16 code units. Both are given with their quotes.</summary>
    private readonly bool IsBefore(ReadOnlySpan<byte> one, ReadOnlySpan<byte> other) =>
        _isPlain || (IsPlain(one) && IsPlain(other))
            ? one[..^1].SequenceCompareTo(other[..^1]) < 0
            : string.CompareOrdinal(TextOf(one), TextOf(other)) < 0;

    // In ASCII without escapes, the order of bytes is that of UTF-16 code units.
    private static bool IsPlain(ReadOnlySpan<byte> utf8) => Ascii.IsValid(utf8) && !utf8.Contains((byte)'\\');

    private static string TextOf(ReadOnlySpan<byte> name)
    {
        var reader = new Utf8JsonReader(name);
        reader.Read();
        return reader.GetString()!;
    }
}
