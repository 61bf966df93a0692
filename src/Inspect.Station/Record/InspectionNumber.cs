using System.Globalization;

namespace Inspect.Station.Record;

/// <summary>The number of an inspection, running within its event, short enough to be read aloud: <c>LANTERN-0417</c>.</summary>
/// <param name="Event">The event's short name.</param>
/// <param name="Running">From 1; four digits at least, so that numbers sort as text up to 9,999.</param>
public readonly record struct InspectionNumber(string Event, long Running)
{
    /// <summary>Reads a number as printed. Lower case is accepted.</summary>
    public static bool TryParse(string text, out InspectionNumber number)
    {
        var dash = text.LastIndexOf('-');
        var digits = dash < 0 ? "" : text[(dash + 1)..];
        number = default;
        if (dash is < 2 or > 12 || digits.Length is < 4 or > 9
            || !long.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var running)
            || !text[..dash].All(char.IsAsciiLetterOrDigit))
        {
            return false;
        }

        number = new InspectionNumber(text[..dash].ToUpperInvariant(), running);
        return running > 0;
    }

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Event}-{Running:0000}");
}
