namespace Inspect.Station.Record;

/// <summary>The check character of ISO 7064 MOD 37,36 over the digits and the letters A to Z.</summary>
/// <remarks>It catches every single wrong character, and nearly every swap of two neighbours.</remarks>
public static class CheckCharacter
{
    private const int Letters = 36;

    /// <summary>The character that completes <paramref name="text"/>.</summary>
    /// <param name="text">Digits and capital letters only.</param>
    /// <exception cref="ArgumentException">The text has another character.</exception>
    public static char For(ReadOnlySpan<char> text)
    {
        var value = (Letters + 1 - Carry(text)) % Letters;
        return (char)(value < 10 ? '0' + value : 'A' + value - 10);
    }

    /// <summary>Whether the last character of <paramref name="text"/> is the check character of those before it.</summary>
    public static bool Completes(ReadOnlySpan<char> text) => text.Length > 1 && For(text[..^1]) == text[^1];

    private static int Carry(ReadOnlySpan<char> text)
    {
        var carry = Letters;
        foreach (var character in text)
        {
            var sum = (carry + ValueOf(character)) % Letters;
            carry = (sum == 0 ? Letters : sum) * 2 % (Letters + 1);
        }

        return carry;
    }

    private static int ValueOf(char character) => character switch
    {
        >= '0' and <= '9' => character - '0',
        >= 'A' and <= 'Z' => character - 'A' + 10,
        _ => throw new ArgumentException($"'{character}' is neither a digit nor a capital letter.", nameof(character)),
    };
}
