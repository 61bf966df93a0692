using System.Security.Cryptography;

namespace Inspect.Station.Record;

/// <summary>The opaque id of a ball in the register: 16 random characters, about 80 bits, from the same letters as a person's id.</summary>
public static class BallId
{
    private const string Alphabet = "0123456789abcdefghjkmnpqrstvwxyz";

    /// <summary>Makes a random id for a ball not seen before.</summary>
    public static string New() => RandomNumberGenerator.GetString(Alphabet, 16);
}
