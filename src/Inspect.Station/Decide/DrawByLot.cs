using System.Security.Cryptography;
using System.Text;

namespace Inspect.Station.Decide;

/// <summary>Draws some numbers of a pool by a seed, so that anyone can repeat the draw with a program for SHA-256 (FIPS 180-4).</summary>
public static class DrawByLot
{
    /// <summary>How a draw is made, for people who want to repeat it.</summary>
    public const string Rule =
        "For each number of the pool, take the SHA-256 of the seed, a colon and the number as UTF-8, in lower-case hexadecimal. "
        + "Sort the numbers by it; the first ones are drawn.";

    /// <summary>How the hash of a pool is made.</summary>
    public const string PoolRule = "The SHA-256 of the pool is that of its numbers sorted by their bytes, each with a line feed behind it.";

    /// <summary>The pool as it is hashed and kept.</summary>
    public static string Text(IEnumerable<string> pool) =>
        string.Concat(pool.Order(StringComparer.Ordinal).Select(number => number + "\n"));

    /// <summary>The numbers that a seed draws, in the order drawn.</summary>
    public static IReadOnlyList<string> Draw(string seed, IEnumerable<string> pool, int count) =>
        [.. pool.OrderBy(number => Hash($"{seed}:{number}"), StringComparer.Ordinal).Take(count)];

    /// <summary>The SHA-256 of a text as UTF-8, in lower-case hexadecimal.</summary>
    public static string Hash(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
