using System.Security.Cryptography;

namespace Inspect.Station.Access;

/// <summary>The opaque id that stands for a person in the register: 16 random characters, about 80 bits.</summary>
public readonly record struct PersonId
{
    private const string Alphabet = "0123456789abcdefghjkmnpqrstvwxyz";
    private readonly string? _text;

    private PersonId(string text) => _text = text;

    /// <summary>Draws a new id.</summary>
    public static PersonId New() => new(RandomNumberGenerator.GetString(Alphabet, 16));

    /// <summary>Takes an id that was drawn before; anything else is a programmer's mistake and throws.</summary>
    public static PersonId From(string text) =>
        text.Length == 16 && text.All(Alphabet.Contains) ? new(text) : throw new FormatException($"\"{text}\" is no person's id.");

    /// <summary>The 16 characters.</summary>
    public override string ToString() => _text ?? throw new InvalidOperationException("No person's id was given.");
}
