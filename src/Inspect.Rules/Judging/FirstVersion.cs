using System.Globalization;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Judging;

/// <summary>Reads findings of records of version 1, which are words alone. Nothing else reads a number back from words.</summary>
/// <remarks>
/// A record keeps its words for ever, so a finding that is read keeps them with the numbers and is written back as the same bytes. Version
/// 1 wrote a margin in the notation of the reading alone: 2 in against 4 1/2 in was <c>2.5 in</c>, and is <c>2 1/2 in</c> now. Judging a
/// sheet of version 1 again must give the recorded bytes, so <see cref="MarginOf"/> and the sentences for version 1 keep the old wording;
/// the numbers are the same in both. Do not adapt this file to new wording elsewhere: the words of old records never change.
/// </remarks>
public static class FirstVersion
{
    private static readonly (string Word, bool IsLeast, bool Inclusive)[] Ends =
    [
        ("at least ", true, true), ("over ", true, false), ("at most ", false, true), ("under ", false, false),
    ];

    /// <summary>What was measured, read from its words.</summary>
    /// <param name="words">As in <c>15 lb 1 1/2 oz</c> or <c>not listed</c>.</param>
    /// <param name="path">The member of the sheet that was read, which says what is measured.</param>
    public static Amount Measured(string words, string? path) => new(words, Number(words, path));

    /// <summary>What was allowed, read from its words.</summary>
    /// <param name="words">As in <c>at most 3 oz</c>, <c>26.704 in to 27.002 in</c>,
    /// <c>over 10 lb and at most 16 lb</c> or <c>not before 1991-01-01</c>.</param>
    /// <param name="path">The member of the sheet that was read, which says what is measured.</param>
    public static Allowed Allowed(string words, string? path) => new(words, Limit(words, path));

    /// <summary>A margin, read from its words: a signed size.</summary>
    internal static Amount Margin(string words, string? path)
    {
        var isNegative = words.StartsWith('-');
        var size = Number(isNegative ? words[1..] : words, path);
        return new Amount(words, isNegative && size is { } known ? known with { Sum = -known.Sum } : size);
    }

    /// <summary>The words of a finding's margin as version 1 wrote them.</summary>
    internal static string? MarginOf(Finding finding) =>
        finding is { Margin: { Text: null, Exact: { } margin }, Measured.Exact.Notation: { } notation }
        ? Written.Difference(margin.Value, notation)
        : finding.Margin?.ToString();

    private static Limit? Limit(string words, string? path)
    {
        if (words == "none")
        {
            return BoundOf("0", path, true) is { Notation: null } none ? new Limit(null, none) : null;
        }

        if (words.StartsWith("exactly ", StringComparison.Ordinal))
        {
            return BoundOf(words["exactly ".Length..], path, true) is { } value ? new Limit(value, value) : null;
        }

        if (words.Split(" and ") is [var low, var high] && End(low, path)?.Least is { } least && End(high, path)?.Most is { } most)
        {
            return new Limit(least, most);
        }

        return words.Split(" to ") is [var from, var to] && BoundOf(from, path, true) is { } first && BoundOf(to, path, true) is { } last
            ? new Limit(first, last)
            : End(words, path);
    }

    private static Limit? End(string words, string? path)
    {
        var (word, isLeast, inclusive) = Ends.FirstOrDefault(end => words.StartsWith(end.Word, StringComparison.Ordinal));
        return word is null || BoundOf(words[word.Length..], path, inclusive) is not { } bound ? null
            : isLeast ? new Limit(bound, null) : new Limit(null, bound);
    }

    private static Bound? BoundOf(string text, string? path, bool inclusive) =>
        Number(text, path) is { } number ? new Bound(number.Sum, inclusive, text, number.Notation) : null;

    private static Exact? Number(string words, string? path)
    {
        if (path is "marks.palmMarks" or "circumstances.ballNumber" or "holes" or ['h', 'o', 'l', 'e', 's', '[', .., ']'])
        {
            return int.TryParse(words, NumberStyles.None, CultureInfo.InvariantCulture, out var count) ? new Exact(count, null) : null;
        }

        if (QuantityAt(path) is not { } quantity)
        {
            return null;
        }

        // The parser refuses a weight of 0, but a margin may be 0: it is read as 1 of its unit and then set to 0.
        var isNothing = quantity == Quantity.Weight && words.StartsWith("0 ", StringComparison.Ordinal);
        return ReadingParser.Parse(isNothing ? $"1{words[1..]}" : words, quantity).Reading is { } reading
            ? new Exact(isNothing ? 0 : reading.Value, reading.Notation)
            : null;
    }

    /// <summary>What version 1 measured at a member of the sheet; a length may be
    /// zero or negative, as a margin or as how far diameters differ.</summary>
    private static Quantity? QuantityAt(string? path) => path switch
    {
        null => null,
        "weights.gross" => Quantity.Weight,
        "weights.topBottom" or "weights.leftRight" or "weights.fingerThumb" or "weights.anyHalves" => Quantity.Imbalance,
        "size.circumference" => Quantity.SignedLength,
        _ when path.StartsWith("size.diameters", StringComparison.Ordinal) => Quantity.SignedLength,
        // A hardness that cannot be used without its temperature has the temperature's path.
        _ when path.StartsWith("hardness.", StringComparison.Ordinal) => Quantity.Hardness,
        _ when path.StartsWith("holes[", StringComparison.Ordinal)
            && (path.EndsWith(".diameter", StringComparison.Ordinal) || path.EndsWith(".depth", StringComparison.Ordinal)) =>
            Quantity.SignedLength,
        _ => null,
    };
}
