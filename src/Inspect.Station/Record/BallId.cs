using System.Security.Cryptography;

namespace Inspect.Station.Record;

/// <summary>The opaque id that stands for a ball in the register: 16 random characters, about 80 bits, of the same letters as a person's.</summary>
public static class BallId
{
    private const string Alphabet = "0123456789abcdefghjkmnpqrstvwxyz";

    /// <summary>Draws the id of a ball not seen before.</summary>
    public static string New() => RandomNumberGenerator.GetString(Alphabet, 16);
}
