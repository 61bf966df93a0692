using System.Diagnostics.CodeAnalysis;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Rulesets;

/// <summary>Reads a limit back from the words that <see cref="Limit.ToString"/> writes, as they stand in recorded verdicts.</summary>
public static class LimitWords
{
    private static readonly (string Word, bool IsLeast, bool Inclusive)[] Ends =
    [
        ("at least ", true, true), ("over ", true, false), ("at most ", false, true), ("under ", false, false),
    ];

    /// <summary>The limit that the words say; false where they say none of a measured quantity.</summary>
    /// <param name="words">As in <c>at most 3 oz</c>, <c>26.704 in to 27.002 in</c> or <c>over 10 lb and at most 16 lb</c>.</param>
    /// <param name="quantity">What is limited.</param>
    /// <param name="limit">The limit, its values in the base unit of the quantity.</param>
    public static bool TryRead(string words, Quantity quantity, [NotNullWhen(true)] out Limit? limit)
    {
        limit = null;
        if (words.StartsWith("exactly ", StringComparison.Ordinal))
        {
            limit = BoundOf(words["exactly ".Length..], quantity, true) is { } value ? new Limit(value, value) : null;
        }
        else if (words.Split(" and ") is [var low, var high] && End(low, quantity)?.Least is { } least && End(high, quantity)?.Most is { } most)
        {
            limit = new Limit(least, most);
        }
        else if (words.Split(" to ") is [var from, var to] && BoundOf(from, quantity, true) is { } first && BoundOf(to, quantity, true) is { } last)
        {
            limit = new Limit(first, last);
        }
        else
        {
            limit = End(words, quantity);
        }

        return limit is not null;
    }

    private static Limit? End(string words, Quantity quantity)
    {
        var (word, isLeast, inclusive) = Ends.FirstOrDefault(end => words.StartsWith(end.Word, StringComparison.Ordinal));
        return word is null || BoundOf(words[word.Length..], quantity, inclusive) is not { } bound ? null
            : isLeast ? new Limit(bound, null) : new Limit(null, bound);
    }

    private static Bound? BoundOf(string text, Quantity quantity, bool inclusive) =>
        ReadingParser.Parse(text, quantity).Reading is { } reading ? Limit.Measure(reading, inclusive) : null;
}
