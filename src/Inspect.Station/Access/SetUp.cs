using System.Security.Cryptography;
using System.Text;

namespace Inspect.Station.Access;

/// <summary>The one-time code that makes the first director of an empty station. It is valid until this process ends.</summary>
public sealed class SetUp(SignIns signIns)
{
    private const string Alphabet = "23456789ABCDEFGHJKMNPQRSTVWXYZ";

    /// <summary>The code, in three groups, about 58 bits. Anyone who sees the station's start-up output may use it.</summary>
    public string Code { get; } = string.Join('-', Enumerable.Range(0, 3).Select(_ => RandomNumberGenerator.GetString(Alphabet, 4)));

    /// <summary>Whether the station still has no director.</summary>
    public bool IsOpen() => signIns.AreNone();

    /// <summary>Whether this is the code. Upper or lower case and hyphens do not matter. Takes equally long for any wrong code.</summary>
    public bool IsCode(string typed) => CryptographicOperations.FixedTimeEquals(Hash(typed), Hash(Code));

    private static byte[] Hash(string code)
    {
        var letters = code.Where(char.IsAsciiLetterOrDigit).Select(char.ToUpperInvariant).ToArray();
        return SHA256.HashData(Encoding.ASCII.GetBytes(letters));
    }
}
