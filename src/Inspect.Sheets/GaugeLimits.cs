using Inspect.Sheets.Readings;

namespace Inspect.Sheets;

/// <summary>The two limits of a go gauge, such as a ring for the ball: what goes is between them, and no figure is read.</summary>
/// <param name="Text">As written, <c>26.704 to 27.002 in</c>.</param>
/// <param name="Least">The smaller limit.</param>
/// <param name="Most">The larger limit.</param>
public sealed record GaugeLimits(string Text, Reading Least, Reading Most)
{
    private const string Between = " to ";

    /// <summary>Reads two lengths, the smaller first; the first has the unit of the second where it names none.</summary>
    /// <returns>The limits, or one sentence that says what is wrong with the text.</returns>
    public static (GaugeLimits? Limits, string? Refusal) Parse(string text)
    {
        var at = text.IndexOf(Between, StringComparison.Ordinal);
        var most = at < 0 ? null : ReadingParser.Parse(text[(at + Between.Length)..].Trim(), Quantity.Length).Reading;
        var least = most is null ? null : ReadingParser.Parse(text[..at].Trim(), Quantity.Length, most.Notation.Unit).Reading;
        return least is null || most is null || least.Value >= most.Value
            ? (null, $"\"{text}\" is not what a gauge has; write its two limits with the unit, the smaller first, as 26.704 to 27.002 in.")
            : (new GaugeLimits(text, least, most), null);
    }

    /// <inheritdoc/>
    public override string ToString() => Text;
}
