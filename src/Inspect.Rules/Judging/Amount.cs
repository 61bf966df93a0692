using System.Globalization;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Judging;

/// <summary>An exact number in the base unit of what it measures, with the
/// notation in which it is written; a count has no notation.</summary>
/// <param name="Sum">The number; for an average the sum of its readings, so that it stays exact.</param>
/// <param name="Notation">The unit and style in which it is written.</param>
/// <param name="Of">How many readings the number sums; 1 for a single figure.</param>
public readonly record struct Exact(decimal Sum, Notation? Notation, int Of = 1)
{
    /// <summary>The number; an average is divided to the 28 digits of a decimal.</summary>
    public decimal Value => Sum / Of;
}

/// <summary>What a finding measured, or its margin: the exact number where
/// there is one, and the words, which are formed when they are shown.</summary>
/// <param name="Text">The words as typed or recorded; absent where they are formed from the number.</param>
/// <param name="Exact">The number; absent for a state, a name or a day.</param>
/// <param name="Limit">The limit that a calculated figure was compared with. The
/// figure is shown with enough decimals to be on the right side of it.</param>
public sealed record Amount(string? Text, Exact? Exact = null, Limit? Limit = null)
{
    /// <summary>The number in the base unit of what it measures, or null where there is no number.</summary>
    public decimal? Value => Exact?.Value;

    /// <summary>The number where it has a unit; null for a count.</summary>
    public decimal? Measure => Exact is { Notation: not null } exact ? exact.Value : null;

    /// <summary>The words.</summary>
    public override string ToString() => Text ?? (Exact is not { } exact ? ""
        : exact.Notation is not { } notation ? exact.Value.ToString("0", CultureInfo.InvariantCulture)
        : Limit is null ? Written.Difference(exact.Value, notation)
        : Written.Beside(exact.Value, notation, Ends(Limit)));

    private static decimal[] Ends(Limit limit) => (limit.Least, limit.Most) switch
    {
        ({ } least, { } most) => [least.Value, most.Value],
        ({ } least, null) => [least.Value],
        (null, { } most) => [most.Value],
        _ => [],
    };

    internal static Amount Count(int count) => new(null, new Exact(count, null));
}
