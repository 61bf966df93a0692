using System.Text;

namespace Inspect.Rules.Rulesets;

/// <summary>The places in a rule's sentence that are filled from the finding.</summary>
public static class Placeholders
{
    /// <summary>Every place an edition may use.</summary>
    public static readonly IReadOnlyList<string> Known =
        [
            "measured", "limit", "excess", "subject", "heavier", "lighter", "size", "gross", "readings", "temperature", "count",
            "pattern", "matched",
        ];

    /// <summary>The names of the places in a sentence.</summary>
    public static IEnumerable<string> In(string sentence)
    {
        for (var place = Next(sentence, 0); place is var (open, close); place = Next(sentence, close))
        {
            yield return sentence[(open + 1)..close];
        }
    }

    /// <summary>The sentence with its places filled; one without a value shows a dash.</summary>
    /// <param name="sentence">The sentence.</param>
    /// <param name="valueOf">The words for a place, asked only for the places that the sentence has.</param>
    public static string Fill(string sentence, Func<string, string?> valueOf)
    {
        var (filled, from) = (new StringBuilder(2 * sentence.Length), 0);
        for (var place = Next(sentence, 0); place is var (open, close); place = Next(sentence, close))
        {
            filled.Append(sentence, from, open - from).Append(valueOf(sentence[(open + 1)..close]) ?? "–");
            from = close + 1;
        }

        return filled.Append(sentence, from, sentence.Length - from).ToString();
    }

    /// <summary>Where the next pair of braces is that has no brace inside.</summary>
    private static (int Open, int Close)? Next(string sentence, int from)
    {
        var close = from;
        while ((close = sentence.IndexOf('}', close)) >= 0)
        {
            var open = sentence.LastIndexOf('{', close);
            if (open >= from && sentence.IndexOf('}', open) == close)
            {
                return (open, close);
            }

            close++;
        }

        return null;
    }
}
