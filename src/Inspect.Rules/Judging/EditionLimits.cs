using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Finds the limits that apply to one sheet, in the edition and in
/// what the event adds to it. Advice has no limits of its own.</summary>
public sealed class EditionLimits
{
    private readonly IReadOnlyList<Rule> _rules;
    private readonly SheetFacts _facts;

    /// <summary>Takes the rules that <paramref name="sheet"/> is judged under: first the edition's, then the event's.</summary>
    public EditionLimits(Edition edition, Sheet sheet, JudgingTerms? terms = null)
    {
        ArgumentNullException.ThrowIfNull(edition);
        _rules = [.. edition.Rules, .. (terms ?? JudgingTerms.None).Supplements.SelectMany(supplement => supplement.Rules)];
        _facts = new SheetFacts(sheet, edition.HouseBall);
    }

    /// <summary>The most allowed of a quantity in its base unit, or null where there is no such limit for this ball.</summary>
    /// <param name="quantity">What is limited.</param>
    /// <param name="kind">The kind of hole, for a quantity of holes.</param>
    public Bound? MostOf(RuleQuantity quantity, HoleKind? kind = null) => _rules.OfType<Rule.Limited>()
        .Where(rule => rule.Quantity == quantity && (kind is null || rule.Holes?.Kinds.Contains(kind.Value) == true) && Applies(rule))
        .Select(rule => rule.Cases.FirstOrDefault(one => _facts.Holds(one.When).Value == true)?.Limit?.Most)
        .OfType<Bound>()
        .MinBy(most => most.Value);

    /// <summary>Whether a balance hole is allowed in this ball.</summary>
    public bool AllowsBalanceHole => _rules.OfType<Rule.Counted>()
        .Where(rule => rule.Holes is { Kinds: [HoleKind.Balance] } && Applies(rule))
        .SelectMany(rule => rule.Cases.Where(one => _facts.Holds(one.When).Value != false))
        .All(one => one.Limit?.Most is not { Value: < 1 });

    private bool Applies(Rule rule) =>
        _facts.Holds(rule.When).Value != false && (rule.Unless is null || _facts.Holds(rule.Unless).Value != true);
}
