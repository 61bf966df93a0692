using System.Globalization;
using System.Text;
using Inspect.Sheets.Json;

namespace Inspect.Station.Web;

/// <summary>Numbers and elements of drawings. Numbers have a decimal point in every culture, and no more digits than can be seen.</summary>
public static class Svg
{
    /// <summary>The size of a picture's labels, as pictures.css has it.</summary>
    public const double LabelSize = 11.5;

    public static string N(double value) => Math.Round(value, 2).ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>A line through points, closed for an outline.</summary>
    public static string Path(IEnumerable<(double X, double Y)> points, bool isClosed = false) =>
        $"M{string.Join('L', points.Select(point => $"{N(point.X)} {N(point.Y)}"))}{(isClosed ? "Z" : "")}";

    /// <summary>A text element with its words encoded. Razor has its own meaning for this element, so drawings write
    /// it with this method.</summary>
    public static string Text(string style, double x, double y, string anchor, string words) =>
        $"<text class=\"{style}\" x=\"{N(x)}\" y=\"{N(y)}\" text-anchor=\"{anchor}\">{System.Net.WebUtility.HtmlEncode(words)}</text>";

    /// <summary>About how wide words are in the pages' letters, rather too wide than too narrow.</summary>
    public static double Width(string words, double size) => size * PlainText.Normalized(words, NormalizationForm.FormD).Sum(WidthOf);

    /// <summary>Words that fit into a width: the middle of longer ones is left out, because names often differ at their ends.</summary>
    public static string Cut(string words, double size, double room)
    {
        var (cut, starts) = (words, StringInfo.ParseCombiningCharacters(words));
        for (var kept = starts.Length - 1; kept > 1 && Width(cut, size) > room; kept--)
        {
            cut = $"{words[..starts[(kept + 1) / 2]].TrimEnd()}…{(kept / 2 == 0 ? "" : words[starts[^(kept / 2)]..].TrimStart())}";
        }

        return cut;
    }

    /// <summary>Labels in one line: the middle of each is at its place, or as near to it as the edges allow. One that would touch the label
    /// before it is left out.</summary>
    public static IEnumerable<(double X, string Words)> Apart(
        IEnumerable<(double X, string Words)> labels, double left, double right)
    {
        var free = double.NegativeInfinity;
        foreach (var (x, words) in labels)
        {
            var half = Width(words, LabelSize) / 2;
            var middle = Math.Max(left + half, Math.Min(x, right - half));
            if (middle - half >= free)
            {
                yield return (middle, words);
                free = middle + half + (LabelSize / 2);
            }
        }
    }

    // In parts of the letters' size, in Inter at the weight of the strongest labels; the accents of a letter take no room.
    private static double WidthOf(char letter) => letter switch
    {
        _ when CharUnicodeInfo.GetUnicodeCategory(letter) == UnicodeCategory.NonSpacingMark => 0,
        'i' or 'j' or 'l' or 'I' or ' ' => 0.28,
        'f' or 'r' or 't' or '1' or '(' or ')' or '/' or '|' or '.' or ',' or ':' or ';' or '!' or '\'' or '·' or 'ł' => 0.43,
        'w' or 'm' or 'M' => 0.93,
        'W' or '%' or '@' or '…' or > '\u2FFF' => 1.03,
        '-' or '–' or '“' or '”' or '°' or '?' or 's' or 'z' or 'L' or '7' or 'J' or 'k' or 'a' or 'x' or 'F' or 'c' or 'e' => 0.59,
        (>= '0' and <= '9') or (>= 'a' and <= 'z') or 'E' or 'P' or 'S' or 'B' or 'R' or 'Z' => 0.66,
        _ => 0.78,
    };
}
