using System.Security.Cryptography;

namespace Inspect.Station.Access;

/// <summary>The opaque id of a person in the register: 16 random characters, about 80 bits.</summary>
public readonly record struct PersonId
{
    private const string Alphabet = "0123456789abcdefghjkmnpqrstvwxyz";
    private readonly string? _text;

    private PersonId(string text) => _text = text;

    /// <summary>Makes a new random id.</summary>
    public static PersonId New() => new(RandomNumberGenerator.GetString(Alphabet, 16));

    /// <summary>Reads an id that was made before. Throws on anything else, which is a programming error.</summary>
    public static PersonId From(string text) =>
        text.Length == 16 && text.All(Alphabet.Contains) ? new(text) : throw new FormatException($"\"{text}\" is not a person's id.");

    /// <summary>The 16 characters.</summary>
    public override string ToString() => _text ?? throw new InvalidOperationException("No person's id was given.");
}
