using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Rulesets;

/// <summary>The words a ruleset file uses, and what they mean here.</summary>
internal static class RulesetWords
{
    public static readonly IReadOnlyDictionary<string, RuleKind> Kinds = Words.Written(
        ("limit", RuleKind.Limit), ("count", RuleKind.Count), ("required", RuleKind.Required), ("forbidden", RuleKind.Forbidden),
        ("listed", RuleKind.Listed));

    public static readonly IReadOnlyDictionary<string, RuleQuantity> Quantities =
        Words.Written([.. Catalogue.Terms.Select(term => (term.Word, term.Quantity))]);

    public static readonly IReadOnlyDictionary<string, Statistic> Statistics = Words.Written(
        ("single", Statistic.Single), ("size", Statistic.Size), ("each", Statistic.Each), ("average", Statistic.Average),
        ("spread", Statistic.Spread));

    public static readonly IReadOnlyDictionary<string, CountPer> CountedPer =
        Words.Written(("ball", CountPer.Ball), ("digit", CountPer.Digit), ("host", CountPer.Host));

    public static readonly IReadOnlyDictionary<string, CountedThing> Counts =
        Words.Written(("holes", CountedThing.Holes), ("palmMarks", CountedThing.PalmMarks), ("balls", CountedThing.Balls));

    public static readonly IReadOnlyDictionary<string, Basis> Bases =
        Words.Written(("official", Basis.Official), ("reprint", Basis.Reprint), ("summary", Basis.Summary), ("memory", Basis.Memory));

    /// <summary>The quantity in which the limits and readings of a rule are written; a day of making has none.</summary>
    public static Quantity? MeasureOf(RuleQuantity quantity) => Catalogue.Of(quantity).Quantity;

    /// <summary>Whether a statistic can be formed of the readings of a quantity.</summary>
    public static bool Fits(Statistic statistic, RuleQuantity quantity) => Catalogue.Of(quantity) switch
    {
        { IsList: true } => statistic is Statistic.Each or Statistic.Average or Statistic.Spread,
        { Quantity: Quantity.Imbalance } => statistic == Statistic.Size,
        _ => statistic == Statistic.Single,
    };

    public static bool OfHole(RuleQuantity quantity) => Catalogue.Of(quantity).IsOfHole;
}

internal enum RuleKind
{
    Limit,
    Count,
    Required,
    Forbidden,
    Listed,
}
