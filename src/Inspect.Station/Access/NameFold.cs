using System.Globalization;
using System.Text;

namespace Inspect.Station.Access;

/// <summary>Makes one text of spellings of a name that a person at a table may take for one another: accents, case and the order of its
/// parts are forgiven.</summary>
/// <remarks>For searching only. Letters without a decomposition (ł, ø, þ, ß and their like) are spelled as keyboards without them do.</remarks>
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

    /// <summary>The words of a name, folded, in the order written; hyphens part words, apostrophes do not.</summary>
    public static IReadOnlyList<string> Words(string name)
    {
        var words = new List<string>();
        var word = new StringBuilder();
        foreach (var letter in name.Normalize(NormalizationForm.FormKD).ToLower(CultureInfo.InvariantCulture))
        {
            if (Spelled.TryGetValue(letter, out var spelled))
            {
                word.Append(spelled);
            }
            else if (char.IsLetterOrDigit(letter))
            {
                word.Append(letter);
            }
            else if (!IsSilent(letter))
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

    /// <summary>Whether every word that was typed begins a word of the name, each another one: "que tom" finds Tomás Ibarrondo Quell.</summary>
    public static bool Matches(string typed, string name) => Matches(Words(typed), [.. Words(name)]);

    // The longest first, so that "li lin" does not spend Linda on "li".
    private static bool Matches(IReadOnlyList<string> typed, List<string> words) => typed.Count > 0
        && typed.OrderByDescending(part => part.Length).All(part => words.FindIndex(word => word.StartsWith(part, StringComparison.Ordinal)) is var at and >= 0
            && Take(words, at));

    private static bool Take(List<string> words, int at)
    {
        words.RemoveAt(at);
        return true;
    }

    private static bool IsSilent(char letter) =>
        letter is '\'' or '’' or '‘' or '`' or 'ʻ' || char.GetUnicodeCategory(letter) is UnicodeCategory.NonSpacingMark or UnicodeCategory.ModifierLetter;
}
