using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Rulesets;

/// <summary>The words a ruleset file uses, beside what they mean here.</summary>
internal static class RulesetWords
{
    public static readonly IReadOnlyDictionary<string, RuleKind> Kinds = new Dictionary<string, RuleKind>(StringComparer.Ordinal)
    {
        ["limit"] = RuleKind.Limit,
        ["count"] = RuleKind.Count,
        ["required"] = RuleKind.Required,
        ["forbidden"] = RuleKind.Forbidden,
        ["listed"] = RuleKind.Listed,
    };

    public static readonly IReadOnlyDictionary<string, RuleQuantity> Quantities = Camel<RuleQuantity>();
    public static readonly IReadOnlyDictionary<string, Statistic> Statistics = Camel<Statistic>();
    public static readonly IReadOnlyDictionary<string, CountPer> CountedPer = Camel<CountPer>();
    public static readonly IReadOnlyDictionary<string, CountedThing> Counts = Camel<CountedThing>();
    public static readonly IReadOnlyDictionary<string, Basis> Bases = Camel<Basis>();

    /// <summary>The quantity in which the limits and readings of a rule are written; a day of making has none, and nothing else is taken
    /// for a day.</summary>
    public static Quantity? MeasureOf(RuleQuantity quantity) => quantity switch
    {
        RuleQuantity.Gross => Quantity.Weight,
        RuleQuantity.TopBottom or RuleQuantity.LeftRight or RuleQuantity.FingerThumb or RuleQuantity.AnyHalves => Quantity.Imbalance,
        RuleQuantity.Diameters or RuleQuantity.Circumference or RuleQuantity.HoleDiameter or RuleQuantity.HoleDepth => Quantity.Length,
        RuleQuantity.Hardness => Quantity.Hardness,
        RuleQuantity.Made => null,
        _ => throw new ArgumentOutOfRangeException(nameof(quantity), quantity, "This quantity has no unit for its limits yet."),
    };

    /// <summary>Whether a statistic can be formed of the readings of a quantity.</summary>
    public static bool Fits(Statistic statistic, RuleQuantity quantity) => quantity switch
    {
        RuleQuantity.Diameters or RuleQuantity.Hardness => statistic is Statistic.Each or Statistic.Average or Statistic.Spread,
        RuleQuantity.TopBottom or RuleQuantity.LeftRight or RuleQuantity.FingerThumb or RuleQuantity.AnyHalves => statistic == Statistic.Size,
        _ => statistic == Statistic.Single,
    };

    public static bool OfHole(RuleQuantity quantity) => quantity is RuleQuantity.HoleDiameter or RuleQuantity.HoleDepth;

    private static Dictionary<string, T> Camel<T>()
        where T : struct, Enum => Enum.GetValues<T>()
        .ToDictionary(value => char.ToLowerInvariant(value.ToString()[0]) + value.ToString()[1..], StringComparer.Ordinal);
}

internal enum RuleKind
{
    Limit,
    Count,
    Required,
    Forbidden,
    Listed,
}
