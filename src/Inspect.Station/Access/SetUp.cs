using System.Security.Cryptography;
using System.Text;

namespace Inspect.Station.Access;

/// <summary>The one-time code with which the first director of an empty station is made. It lives as long as this process.</summary>
public sealed class SetUp(SignIns signIns)
{
    private const string Alphabet = "23456789ABCDEFGHJKMNPQRSTVWXYZ";

    /// <summary>The code, in three groups, about 58 bits; whoever reads the start of the station may use it.</summary>
    public string Code { get; } = string.Join('-', Enumerable.Range(0, 3).Select(_ => RandomNumberGenerator.GetString(Alphabet, 4)));

    /// <summary>Whether the station still waits for its first director.</summary>
    public bool IsOpen() => signIns.AreNone();

    /// <summary>Whether this is the code, in either case and with or without its hyphens; takes as long for any wrong one.</summary>
    public bool IsCode(string typed) => CryptographicOperations.FixedTimeEquals(Hash(typed), Hash(Code));

    private static byte[] Hash(string code)
    {
        var letters = code.Where(char.IsAsciiLetterOrDigit).Select(char.ToUpperInvariant).ToArray();
        return SHA256.HashData(Encoding.ASCII.GetBytes(letters));
    }
}
