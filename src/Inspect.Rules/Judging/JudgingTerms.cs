using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>What an event adds to the edition: its own rules, how it decides near a limit, and which limits were confirmed.</summary>
public sealed record JudgingTerms
{
    /// <summary>Nothing added to the edition.</summary>
    public static readonly JudgingTerms None = new();

    /// <summary>The event's own rules, in the order in which a verdict shows them.</summary>
    public IReadOnlyList<Supplement> Supplements { get; init; } = [];

    /// <summary>How a reading near a limit is decided.</summary>
    public DecisionRule DecisionRule { get; init; } = DecisionRule.Simple;

    /// <summary>For each quantity how uncertain its readings are; without one, a reading of it has no guard band.</summary>
    public IReadOnlyList<Uncertainty> Uncertainties { get; init; } = [];

    /// <summary>The limits known from memory that a director confirmed from a document.</summary>
    public IReadOnlyList<Confirmation> Confirmations { get; init; } = [];

    /// <summary>The confirmation of a rule's limit, or null.</summary>
    /// <param name="rule">The rule's id.</param>
    /// <param name="limit">The limit in words; null where the edition has none.</param>
    public Confirmation? Confirming(string rule, string? limit) =>
        Confirmations.FirstOrDefault(confirmation => confirmation.Rule == rule && confirmation.Limit == limit);

    /// <summary>The standard uncertainty of a figure; zero when it is not known.</summary>
    internal decimal StandardOf(RuleQuantity quantity, Statistic statistic, int readings) =>
        Uncertainties.Count == 0 ? 0
        : Uncertainties.FirstOrDefault(uncertainty => uncertainty.Quantity == quantity)?.Standard(statistic, readings) ?? 0;
}
