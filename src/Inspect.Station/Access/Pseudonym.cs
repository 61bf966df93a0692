using System.Security.Cryptography;
using System.Text;

namespace Inspect.Station.Access;

/// <summary>What stands in the register in place of a name or free text: HMAC-SHA-256 (RFC 2104, FIPS 180-4) under the owner's salt.</summary>
/// <remarks>Once the salt is struck nobody can test a guess against the hash, and the register still checks.</remarks>
public static class Pseudonym
{
    /// <summary>How many bytes a salt has: as many as the hash, so that guessing it is no easier than guessing the hash.</summary>
    public const int SaltLength = 32;

    /// <summary>Draws a salt for a new person.</summary>
    public static byte[] NewSalt() => RandomNumberGenerator.GetBytes(SaltLength);

    /// <summary>The hash of a text in normalisation form C and UTF-8, as 64 lower-case hexadecimal digits.</summary>
    public static string Of(ReadOnlySpan<byte> salt, string text)
    {
        var bytes = Encoding.UTF8.GetBytes(text.Normalize(NormalizationForm.FormC));
        return Convert.ToHexStringLower(HMACSHA256.HashData(salt, bytes));
    }
}
