using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Rules.Sheets;

namespace Inspect.Rules.Advice;

/// <summary>Asks an edition for its limits as they apply to one sheet, so that advice carries no limit of its own.</summary>
public sealed class EditionLimits
{
    private readonly Edition _edition;
    private readonly SheetFacts _facts;

    public EditionLimits(Edition edition, Sheet sheet)
    {
        ArgumentNullException.ThrowIfNull(edition);
        (_edition, _facts) = (edition, new SheetFacts(sheet, edition.HouseBall));
    }

    /// <summary>The most allowed of a quantity in its base unit, or null where the edition sets no such limit for this ball.</summary>
    /// <param name="quantity">What is limited.</param>
    /// <param name="kind">The kind of hole, for a quantity of holes.</param>
    public Bound? MostOf(RuleQuantity quantity, HoleKind? kind = null) => _edition.Rules.OfType<Rule.Limited>()
        .Where(rule => rule.Quantity == quantity && (kind is null || rule.Holes?.Kinds.Contains(kind.Value) == true) && Applies(rule))
        .Select(rule => rule.Cases.FirstOrDefault(one => _facts.Holds(one.When).Value == true)?.Limit?.Most)
        .FirstOrDefault(most => most is not null);

    /// <summary>Whether the edition allows a balance hole in this ball.</summary>
    public bool AllowsBalanceHole => _edition.Rules.OfType<Rule.Counted>()
        .Where(rule => rule.Holes is { Kinds: [HoleKind.Balance] } && Applies(rule))
        .SelectMany(rule => rule.Cases.Where(one => _facts.Holds(one.When).Value != false))
        .All(one => one.Limit?.Most is not { Value: < 1 });

    private bool Applies(Rule rule) =>
        _facts.Holds(rule.When).Value != false && (rule.Unless is null || _facts.Holds(rule.Unless).Value != true);
}
