using System.Globalization;

namespace Inspect.Station.Web;

/// <summary>Numbers as drawings write them: a point for decimals whatever the culture, and no more digits than can be seen.</summary>
public static class Svg
{
    public static string N(double value) => Math.Round(value, 2).ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>A line through points, closed where it is an outline.</summary>
    public static string Path(IEnumerable<(double X, double Y)> points, bool isClosed = false) =>
        $"M{string.Join('L', points.Select(point => $"{N(point.X)} {N(point.Y)}"))}{(isClosed ? "Z" : "")}";

    /// <summary>A text element, its words encoded. Razor would take the element for its own, so drawings write it with this.</summary>
    public static string Text(string style, double x, double y, string anchor, string words) =>
        $"<text class=\"{style}\" x=\"{N(x)}\" y=\"{N(y)}\" text-anchor=\"{anchor}\">{System.Net.WebUtility.HtmlEncode(words)}</text>";
}
