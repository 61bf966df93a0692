using Inspect.Sheets;

namespace Inspect.Station.Record;

/// <summary>The grip of a verdict in words. A ball can be legal with one grip and not with another.</summary>
public static class GripWords
{
    public static string Of(Grip? grip)
    {
        if (grip?.Digits is not { } digits)
        {
            return "Grip not written down";
        }

        var hand = grip.Hand is { } known ? Words.Of(known) + " hand" : "Hand not written down";
        var which = digits.Count switch
        {
            0 => "no digit in a hole",
            1 => $"{Words.Of(digits[0])} in a hole",
            _ => $"{string.Join(", ", digits.SkipLast(1).Select(Words.Of))} and {Words.Of(digits[^1])} in holes",
        };
        var without = digits.Contains(Digit.Thumb) ? "" : ", without the thumb";
        return $"{char.ToUpperInvariant(hand[0])}{hand[1..]}, {which}{without}";
    }
}
