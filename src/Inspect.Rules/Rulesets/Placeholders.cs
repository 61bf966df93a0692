using System.Text.RegularExpressions;

namespace Inspect.Rules.Rulesets;

/// <summary>The places in a rule's sentence that are filled from the finding.</summary>
public static partial class Placeholders
{
    /// <summary>Every place an edition may use.</summary>
    public static readonly IReadOnlyList<string> Known =
        ["measured", "limit", "excess", "subject", "heavier", "lighter", "size", "gross", "readings", "temperature", "count", "pattern", "matched"];

    /// <summary>The names of the places in a sentence.</summary>
    public static IEnumerable<string> In(string sentence) => Shape().Matches(sentence).Select(match => match.Groups[1].Value);

    /// <summary>The sentence with its places filled; one without a value shows a dash.</summary>
    public static string Fill(string sentence, IReadOnlyDictionary<string, string?> values) =>
        Shape().Replace(sentence, match => values.GetValueOrDefault(match.Groups[1].Value) ?? "–");

    [GeneratedRegex(@"\{([^{}]*)\}", RegexOptions.CultureInvariant)]
    private static partial Regex Shape();
}
