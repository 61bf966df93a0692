using System.Globalization;

namespace Inspect.Station.Web;

/// <summary>Numbers and elements of drawings. Numbers have a decimal point in every culture, and no more digits than can be seen.</summary>
public static class Svg
{
    public static string N(double value) => Math.Round(value, 2).ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>A line through points, closed for an outline.</summary>
    public static string Path(IEnumerable<(double X, double Y)> points, bool isClosed = false) =>
        $"M{string.Join('L', points.Select(point => $"{N(point.X)} {N(point.Y)}"))}{(isClosed ? "Z" : "")}";

    /// <summary>A text element with its words encoded. Razor has its own meaning for this element, so drawings write
    /// it with this method.</summary>
    public static string Text(string style, double x, double y, string anchor, string words) =>
        $"<text class=\"{style}\" x=\"{N(x)}\" y=\"{N(y)}\" text-anchor=\"{anchor}\">{System.Net.WebUtility.HtmlEncode(words)}</text>";
}
