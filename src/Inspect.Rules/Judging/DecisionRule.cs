using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Judging;

/// <summary>Which way a reading near a limit is decided.</summary>
public enum DecisionKind
{
    /// <summary>The reading decides as it is.</summary>
    Simple,

    /// <summary>A reading closer to the limit than the guard band holds, and one beyond it fails.</summary>
    GuardedAcceptance,

    /// <summary>Only a reading beyond the limit by more than the guard band fails.</summary>
    GuardedRejection,
}

/// <summary>How an event decides near a limit, and how many standard uncertainties wide its guard band is.</summary>
/// <remarks>Decision rules and guard bands as in ILAC-G8:09/2019 and ISO 14253-1:2017; the band is w = factor x u.</remarks>
public sealed record DecisionRule
{
    private const decimal WidestFactor = 10m;

    private DecisionRule(DecisionKind kind, decimal factor) => (Kind, Factor) = (kind, factor);

    /// <summary>Simple acceptance, the rule of an event that sets none.</summary>
    public static readonly DecisionRule Simple = new(DecisionKind.Simple, 0m);

    /// <summary>Simple, or guarded for or against the ball.</summary>
    public DecisionKind Kind { get; }

    /// <summary>The width of the guard band in standard uncertainties; zero for simple acceptance.</summary>
    public decimal Factor { get; }

    /// <summary>Whether <paramref name="factor"/> can be the factor of a guarded rule: above 0 and at most 10.</summary>
    public static bool Takes(decimal factor) => factor is > 0 and <= WidestFactor;

    /// <exception cref="ArgumentOutOfRangeException">The factor is not above 0 and at most 10.</exception>
    public static DecisionRule GuardedAcceptance(decimal factor) => Guarded(DecisionKind.GuardedAcceptance, factor);

    /// <inheritdoc cref="GuardedAcceptance"/>
    public static DecisionRule GuardedRejection(decimal factor) => Guarded(DecisionKind.GuardedRejection, factor);

    /// <summary>The guarded rule of a kind; simple acceptance takes no factor.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The factor is not above 0 and at most 10.</exception>
    internal static DecisionRule Guarded(DecisionKind kind, decimal factor) => kind == DecisionKind.Simple ? Simple
        : Takes(factor) ? new DecisionRule(kind, factor)
        : throw new ArgumentOutOfRangeException(nameof(factor), factor,
            "A guard band is above 0 and at most 10 standard uncertainties wide.");

    /// <summary>The limit moved inwards by the guard band, or outwards by a
    /// negative one; a reading on the moved limit is not guarded.</summary>
    public static Limit Moved(Limit limit, decimal inwards) => new(
        limit.Least is { } least ? least with { Value = least.Value + inwards, Inclusive = true } : null,
        limit.Most is { } most ? most with { Value = most.Value - inwards, Inclusive = true } : null);
}
