using System.Globalization;
using System.Text.RegularExpressions;
using Inspect.Rules.Judging;
using Inspect.Sheets.Readings;

namespace Inspect.Station.Judge;

/// <summary>How much of what is allowed a reading uses, read from the words of its finding, so that a verdict of any age can be drawn.</summary>
/// <param name="Used">0 where the reading is farthest from the limit, 1 on the limit, more outside it. With two limits, 0 is halfway between them.</param>
/// <param name="IsOutside">Whether the reading is outside the limit.</param>
/// <param name="IsBetween">Whether there are two limits.</param>
public readonly partial record struct MarginShare(double Used, bool IsOutside, bool IsBetween)
{
    private const double Widest = 1.25;

    /// <summary>Where the mark stands on a bar of which 100 is the limit; a mark outside always stands clear of it.</summary>
    public double At => IsOutside ? Math.Clamp(100 * Used, 108, 100 * Widest) : Math.Clamp(100 * Used, 6, 96);

    /// <summary>The share, or null for a finding that has no margin or whose limit is no measure.</summary>
    public static MarginShare? Of(Finding finding)
    {
        // A count has no share: of one vent allowed, none is not "far inside".
        var isMeasure = (finding.Measured is [.., var last] && char.IsAsciiLetter(last)) || finding.Path?.StartsWith("hardness.", StringComparison.Ordinal) == true;
        if (!isMeasure || finding.Margin is not { } margin || finding.Limit is not { } limit || Value(margin) is not { } distance)
        {
            return null;
        }

        var match = Ends().Match(limit);
        var (least, most) = (End(match, "least"), End(match, "most"));
        var span = least is { } low && most is { } high ? (high - low) / 2 : Math.Abs(most ?? least ?? 0);
        return span <= 0 ? null : new MarginShare(1 - (distance / span), finding.Outcome == Outcome.Fail, least is not null && most is not null);
    }

    private static double? End(Match match, string name) => match.Groups[name].Success ? Value(match.Groups[name].Value) : null;

    /// <summary>A measure in the base unit of whatever it measures; both texts of a finding are of one quantity.</summary>
    private static double? Value(string text)
    {
        if (decimal.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var plain))
        {
            return (double)plain;
        }

        var (sign, size) = text.StartsWith('-') ? (-1, text[1..]) : (1, text);
        var reading = new[] { Quantity.Imbalance, Quantity.Weight, Quantity.SignedLength, Quantity.Duration, Quantity.Hardness }
            .Select(quantity => ReadingParser.Parse(size, quantity).Reading).FirstOrDefault(read => read is not null);
        return reading is null ? null : sign * (double)reading.Value;
    }

    [GeneratedRegex(@"^(?:(?:at least|over) (?<least>.+?)(?: and |$))?(?:(?:at most|under) (?<most>.+))?$|^(?<least>.+?) to (?<most>.+)$", RegexOptions.CultureInvariant)]
    private static partial Regex Ends();
}
