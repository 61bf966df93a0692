using System.Globalization;
using System.Text;
using Inspect.Sheets.Json;

namespace Inspect.Station.Access;

/// <summary>Folds a name for searching: accents, upper and lower case and the order of its parts do not matter.</summary>
/// <remarks>For searching only. Letters without a decomposition (ł, ø, þ, ß and others) are spelled as on
/// keyboards that lack them.</remarks>
public static class NameFold
{
    private static readonly Dictionary<char, string> Spelled = new()
    {
        ['ł'] = "l",
        ['ø'] = "o",
        ['đ'] = "d",
        ['ð'] = "d",
        ['þ'] = "th",
        ['ß'] = "ss",
        ['æ'] = "ae",
        ['œ'] = "oe",
        ['ı'] = "i",
        ['ħ'] = "h",
        ['ŋ'] = "n",
    };

    // How German and the Nordic languages are spelled on a keyboard that lacks the letter.
    private static readonly Dictionary<char, string> Spread = new()
    {
        ['ä'] = "ae",
        ['ö'] = "oe",
        ['ü'] = "ue",
        ['ø'] = "oe",
        ['å'] = "aa"
    };

    /// <summary>The words of a name, folded, in the order written. Hyphens separate words, apostrophes do not.</summary>
    public static IReadOnlyList<string> Words(string name) => Words(name, isSilent: IsApostrophe);

    /// <summary>Every word that finds a name, in any of its spellings.</summary>
    public static IReadOnlySet<string> FoundBy(string name) => Spellings(name).SelectMany(words => words).ToHashSet(StringComparer.Ordinal);

    /// <summary>Whether every typed word begins a different word of the name: "que tom" finds Tomás Ibarrondo Quell.</summary>
    public static bool Matches(string typed, string name)
    {
        var words = Words(typed);
        return Spellings(name).Any(spelling => Matches(words, [.. spelling]));
    }

    // O'Hallmoor may be typed as one word, as two, or without the O; Prys-Ardal as two words or one; Strömquist with oe.
    private static IEnumerable<IReadOnlyList<string>> Spellings(string name)
    {
        yield return Words(name);
        if (name.Any(IsApostrophe))
        {
            yield return Words(name, isSilent: _ => false);
        }

        if (name.Any(IsHyphen))
        {
            yield return Words(name, letter => IsApostrophe(letter) || IsHyphen(letter));
        }

        var composed = PlainText.Normalized(name, NormalizationForm.FormC).ToLower(CultureInfo.InvariantCulture);
        if (composed.Any(Spread.ContainsKey))
        {
            yield return Words(string.Concat(composed.Select(letter => Spread.GetValueOrDefault(letter) ?? letter.ToString())));
        }
    }

    private static List<string> Words(string name, Func<char, bool> isSilent)
    {
        var words = new List<string>();
        var word = new StringBuilder();
        foreach (var letter in PlainText.Normalized(name, NormalizationForm.FormKD).ToLower(CultureInfo.InvariantCulture))
        {
            if (Spelled.TryGetValue(letter, out var spelled))
            {
                word.Append(spelled);
            }
            else if (char.IsLetterOrDigit(letter))
            {
                word.Append(letter);
            }
            else if (!isSilent(letter) && !IsMark(letter))
            {
                Close();
            }
        }

        Close();
        return words;

        void Close()
        {
            if (word.Length > 0)
            {
                words.Add(word.ToString());
                word.Clear();
            }
        }
    }

    // Longest first, so that in "li lin" the word Linda is not used up by "li".
    private static bool Matches(IReadOnlyList<string> typed, List<string> words) => typed.Count > 0
        && typed.OrderByDescending(part => part.Length)
            .All(part => words.FindIndex(word => word.StartsWith(part, StringComparison.Ordinal)) is var at and >= 0
            && Take(words, at));

    private static bool Take(List<string> words, int at)
    {
        words.RemoveAt(at);
        return true;
    }

    private static bool IsApostrophe(char letter) => letter is '\'' or '’' or '‘' or '`' or 'ʻ';

    private static bool IsHyphen(char letter) => letter is '-' or '\u2010' or '\u2011';

    // A modifier letter does not separate words either, except the one that is written as an apostrophe.
    private static bool IsMark(char letter) =>
        char.GetUnicodeCategory(letter) is UnicodeCategory.NonSpacingMark
            || (!IsApostrophe(letter) && char.GetUnicodeCategory(letter) is UnicodeCategory.ModifierLetter);
}
