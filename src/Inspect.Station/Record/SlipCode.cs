using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;

namespace Inspect.Station.Record;

/// <summary>The secret code of a slip: 13 random characters that can be read aloud, and a check character.</summary>
/// <remarks>
/// The characters are those of Crockford's base 32, which leaves out I, L, O and U. Draws are discarded when the check character is not one
/// of the 32, or when swapping two neighbours would give another valid code. This costs about one of the 65 random bits.
/// </remarks>
public readonly record struct SlipCode
{
    /// <summary>Crockford's base 32, in order of value.</summary>
    public const string Alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

    /// <summary>Characters in a code, including the check character.</summary>
    public const int Length = 14;

    private readonly string? text;

    private SlipCode(string text) => this.text = text;

    /// <summary>Makes a new code from the system's random source.</summary>
    public static SlipCode Draw()
    {
        while (true)
        {
            var random = RandomNumberGenerator.GetString(Alphabet, Length - 1);
            var code = random + CheckCharacter.For(random);
            if (Alphabet.Contains(code[^1]) && !AnySwapPasses(code))
            {
                return new SlipCode(code);
            }
        }
    }

    /// <summary>
    /// Reads a code as typed or heard. Lower case, spaces and dashes are accepted, and O, I and L are read as 0, 1 and 1. Everything else
    /// gives only false, so that nobody learns how close a guess was.
    /// </summary>
    public static bool TryParse([NotNullWhen(true)] string? typed, out SlipCode code)
    {
        code = default;
        if (typed is null)
        {
            return false;
        }

        Span<char> characters = stackalloc char[Length];
        var count = 0;
        foreach (var character in typed)
        {
            if (character is ' ' or '-' or '\u2010' or '\u2011' or '\u2013')
            {
                continue;
            }

            var meant = Meant(character);
            if (count == Length || !Alphabet.Contains(meant))
            {
                return false;
            }

            characters[count++] = meant;
        }

        if (count != Length || !CheckCharacter.Completes(characters))
        {
            return false;
        }

        code = new SlipCode(new string(characters));
        return true;
    }

    /// <summary>The code in groups for reading aloud, its check character alone at the end: <c>7K2M-0419-XQ3PA-9</c>.</summary>
    public string Grouped
    {
        get
        {
            var whole = ToString();
            return $"{whole[..4]}-{whole[4..8]}-{whole[8..13]}-{whole[13..]}";
        }
    }

    /// <summary>The fourteen characters, as in an address.</summary>
    /// <exception cref="InvalidOperationException">This is the empty default.</exception>
    public override string ToString() => text ?? throw new InvalidOperationException("A slip code is drawn or read, never left empty.");

    private static char Meant(char character) => char.ToUpperInvariant(character) switch
    {
        'O' => '0',
        'I' or 'L' => '1',
        var upper => upper,
    };

    private static bool AnySwapPasses(string code)
    {
        Span<char> swapped = stackalloc char[Length];
        for (var i = 0; i + 1 < Length; i++)
        {
            code.CopyTo(swapped);
            (swapped[i], swapped[i + 1]) = (swapped[i + 1], swapped[i]);
            if (code[i] != code[i + 1] && CheckCharacter.Completes(swapped))
            {
                return true;
            }
        }

        return false;
    }
}
