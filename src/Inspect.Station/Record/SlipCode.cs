using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;

namespace Inspect.Station.Record;

/// <summary>The secret that a slip carries: 13 random characters that can be read aloud, and one that checks them.</summary>
/// <remarks>
/// The characters are those of Crockford's base 32, which leaves out I, L, O and U. The 65 random bits lose about one when a draw is
/// thrown away: its check character must be one of the 32 too, and swapping two neighbours must never give another valid code.
/// </remarks>
public readonly record struct SlipCode
{
    /// <summary>Crockford's base 32, in order of value.</summary>
    public const string Alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

    /// <summary>Characters in a code, the check character among them.</summary>
    public const int Length = 14;

    private readonly string? text;

    private SlipCode(string text) => this.text = text;

    /// <summary>Draws a new code from the system's source of randomness.</summary>
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
    /// Reads a code as typed or heard: lower case, spaces and dashes are forgiven, and O, I and L stand for 0, 1 and 1. Says no more than
    /// no to anything else, so that nobody learns how close a guess was.
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

    /// <summary>The fourteen characters, as they stand in an address.</summary>
    /// <exception cref="InvalidOperationException">This is no code but the empty default.</exception>
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
