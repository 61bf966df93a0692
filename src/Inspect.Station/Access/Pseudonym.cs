using System.Security.Cryptography;
using System.Text;
using Inspect.Sheets.Json;

namespace Inspect.Station.Access;

/// <summary>The hash that replaces a name or free text in the register: HMAC-SHA-256 (RFC 2104, FIPS 180-4) with the
/// owner's salt as key.</summary>
/// <remarks>Once the salt is struck, nobody can test a guess against the hash, and the register can still be verified.</remarks>
public static class Pseudonym
{
    /// <summary>The bytes of a salt: as many as of the hash, so that guessing the salt is no easier than guessing the hash.</summary>
    public const int SaltLength = 32;

    /// <summary>Makes a random salt for a new person.</summary>
    public static byte[] NewSalt() => RandomNumberGenerator.GetBytes(SaltLength);

    /// <summary>The hash of a text in normalisation form C and UTF-8, as 64 lower-case hexadecimal digits.</summary>
    public static string Of(ReadOnlySpan<byte> salt, string text)
    {
        var bytes = Encoding.UTF8.GetBytes(PlainText.Normalized(text, NormalizationForm.FormC));
        return Convert.ToHexStringLower(HMACSHA256.HashData(salt, bytes));
    }
}
