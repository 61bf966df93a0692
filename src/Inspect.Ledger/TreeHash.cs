using System.Buffers;
using System.Buffers.Binary;
using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;

namespace Inspect.Ledger;

/// <summary>A SHA-256 value of the register's tree: a leaf, an inner node or a root.</summary>
/// <remarks>Kept as four words and not as an array, so that equality is by value and a default hash is all zeros.</remarks>
public readonly record struct TreeHash
{
    /// <summary>Length of a hash in bytes.</summary>
    public const int Length = 32;

    private static readonly SearchValues<char> LowerHexDigits = SearchValues.Create("0123456789abcdef");

    private readonly ulong _a;
    private readonly ulong _b;
    private readonly ulong _c;
    private readonly ulong _d;

    /// <summary>Copies the 32 bytes of a hash.</summary>
    /// <exception cref="ArgumentException">There are more or fewer bytes.</exception>
    public TreeHash(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length != Length)
        {
            throw new ArgumentException($"A tree hash has {Length} bytes, not {bytes.Length}.", nameof(bytes));
        }

        _a = BinaryPrimitives.ReadUInt64BigEndian(bytes);
        _b = BinaryPrimitives.ReadUInt64BigEndian(bytes[8..]);
        _c = BinaryPrimitives.ReadUInt64BigEndian(bytes[16..]);
        _d = BinaryPrimitives.ReadUInt64BigEndian(bytes[24..]);
    }

    /// <summary>The root of a tree without leaves: the hash of no bytes (RFC 9162 section 2.1.1).</summary>
    public static TreeHash OfEmptyTree { get; } = new(SHA256.HashData([]));

    /// <summary>Reads 64 lower-case hexadecimal digits. Any other spelling is refused, because one hash has one text.</summary>
    public static bool TryParseHex([NotNullWhen(true)] string? text, out TreeHash hash)
    {
        hash = default;
        if (text is not { Length: 2 * Length } || text.AsSpan().ContainsAnyExcept(LowerHexDigits))
        {
            return false;
        }

        hash = new TreeHash(Convert.FromHexString(text));
        return true;
    }

    /// <summary>Writes the 32 bytes to the beginning of <paramref name="destination"/>.</summary>
    public void CopyTo(Span<byte> destination)
    {
        BinaryPrimitives.WriteUInt64BigEndian(destination, _a);
        BinaryPrimitives.WriteUInt64BigEndian(destination[8..], _b);
        BinaryPrimitives.WriteUInt64BigEndian(destination[16..], _c);
        BinaryPrimitives.WriteUInt64BigEndian(destination[24..], _d);
    }

    /// <summary>The 32 bytes, in a new array.</summary>
    public byte[] ToArray()
    {
        var bytes = new byte[Length];
        CopyTo(bytes);
        return bytes;
    }

    /// <summary>The hash as 64 lower-case hexadecimal digits.</summary>
    public override string ToString() => Convert.ToHexStringLower(ToArray());
}
