using System.Buffers.Binary;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Inspect.Ledger;

/// <summary>The public half of a station's signing key: ECDSA on the curve P-256, with the name that it signs under.</summary>
/// <remarks>
/// The text form is that of signed notes: the name, the key id in hexadecimal, and base64 of the type byte 0x02 with the key, joined by
/// plus signs. For this type the C2SP signed-note specification takes the key id from the SHA-256 of the SubjectPublicKeyInfo alone,
/// without the name. One key has one text: any other spelling is refused.
/// </remarks>
public sealed record PublicKey
{
    /// <summary>The signed-note type of ECDSA signatures.</summary>
    private const byte EcdsaType = 0x02;

    // A SubjectPublicKeyInfo of P-256 (RFC 5480 section 2) with an uncompressed point (SEC 1 section 2.3.3) begins with these bytes.
    // Then follow 32 bytes each of x and y.
    private static readonly byte[] P256Beginning = Convert.FromHexString("3059301306072a8648ce3d020106082a8648ce3d03010703420004");

    private readonly string _subjectPublicKeyInfo;

    private PublicKey(string name, byte[] subjectPublicKeyInfo)
    {
        Name = name;
        _subjectPublicKeyInfo = Convert.ToBase64String(subjectPublicKeyInfo);
        var digest = SHA256.HashData(subjectPublicKeyInfo);
        Id = BinaryPrimitives.ReadUInt32BigEndian(digest);
        var hex = Convert.ToHexStringLower(digest);
        Fingerprint = string.Join(' ', Enumerable.Range(0, 16).Select(group => hex.Substring(4 * group, 4)));
        var idText = Id.ToString("x8", CultureInfo.InvariantCulture);
        Text = $"{name}+{idText}+{Convert.ToBase64String([EcdsaType, .. subjectPublicKeyInfo])}";
    }

    /// <summary>The name in the signature line and in the first line of a checkpoint.</summary>
    public string Name { get; }

    /// <summary>The short number by which a signature names its key. It helps to find the key and proves nothing.</summary>
    public uint Id { get; }

    /// <summary>SHA-256 of the key in groups of four digits, to be read aloud and compared.</summary>
    public string Fingerprint { get; }

    /// <summary>The whole key in one line of text.</summary>
    public string Text { get; }

    /// <summary>The public half of <paramref name="key"/>.</summary>
    /// <exception cref="ArgumentException">The name is empty or has a space, a plus sign or a control
    /// character, or the key is not on P-256.</exception>
    public static PublicKey Of(ECDsa key, string name)
    {
        if (!IsName(name))
        {
            throw new ArgumentException(
                $"'{name}' cannot be the name of a key: it needs at least one character, and no space, plus sign or control character.",
                nameof(name));
        }

        var subjectPublicKeyInfo = key.ExportSubjectPublicKeyInfo();
        if (!IsP256(subjectPublicKeyInfo))
        {
            throw new ArgumentException("The station signs with a key on the curve P-256.", nameof(key));
        }

        return new PublicKey(name, subjectPublicKeyInfo);
    }

    /// <summary>Reads the text form.</summary>
    public static bool TryParse([NotNullWhen(true)] string? text, [NotNullWhen(true)] out PublicKey? key)
    {
        key = null;
        // Base64 may contain a plus sign too, so only the first two separate.
        var parts = text?.Split('+', 3);
        if (parts is not [var name, _, var encoded] || !IsName(name) || !Base64.TryDecode(encoded, out var bytes)
            || bytes is not [EcdsaType, .. var subjectPublicKeyInfo] || !IsP256(subjectPublicKeyInfo))
        {
            return false;
        }

        try
        {
            // The framework refuses a point that is not on the curve.
            using var imported = ECDsa.Create();
            imported.ImportSubjectPublicKeyInfo(subjectPublicKeyInfo, out _);
        }
        catch (CryptographicException)
        {
            return false;
        }

        var read = new PublicKey(name, subjectPublicKeyInfo);
        key = read.Text == text ? read : null;
        return key is not null;
    }

    public override string ToString() => Text;

    internal static bool IsName(string name) =>
        name.Length > 0 && !name.Any(character => char.IsWhiteSpace(character) || char.IsControl(character) || character == '+');

    internal bool Verify(string text, ReadOnlySpan<byte> signature)
    {
        using var key = ECDsa.Create();
        key.ImportSubjectPublicKeyInfo(Convert.FromBase64String(_subjectPublicKeyInfo), out _);
        return key.VerifyData(Encoding.UTF8.GetBytes(text), signature, HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence);
    }

    private static bool IsP256(byte[] subjectPublicKeyInfo) =>
        subjectPublicKeyInfo.Length == P256Beginning.Length + 64 && subjectPublicKeyInfo.AsSpan().StartsWith(P256Beginning);
}
