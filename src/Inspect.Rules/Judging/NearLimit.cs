using Inspect.Rules.Rulesets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Judging;

/// <summary>Applies an event's decision rule to a reading that was compared with its limit.</summary>
internal static class NearLimit
{
    /// <summary>The finding under the decision rule, with the probability of conformance where the reading lies near the limit.</summary>
    /// <param name="compared">The finding by simple acceptance.</param>
    /// <param name="limit">The limit.</param>
    /// <param name="figure">What was compared with it.</param>
    /// <param name="rule">The event's decision rule.</param>
    /// <param name="standard">The standard uncertainty of the figure; zero
    /// when it is not known, and the finding then stays as it is.</param>
    public static Finding Decide(Finding compared, Limit limit, Figure figure, DecisionRule rule, decimal standard) =>
        standard > 0 ? Near(compared, limit, figure, rule, standard) : compared;

    // Apart from the test above, because what its sentences keep is allocated on entering.
    private static Finding Near(Finding compared, Limit limit, Figure figure, DecisionRule rule, decimal standard)
    {
        var band = rule.Factor * standard;
        var near = compared with { Conformance = Conformance.Near(limit, figure, standard) };
        return rule.Kind switch
        {
            DecisionKind.GuardedAcceptance when near.Outcome == Outcome.Pass && !Allows(limit, band, figure) => near with
            {
                Outcome = Outcome.Hold,
                Cause = HoldCause.NearLimit,
                Sentence = new Sentence(_ => Explanation.NearLimit($"{near.Measured}", limit.ToString(), Band())),
            },
            DecisionKind.GuardedRejection when near.Outcome == Outcome.Fail && Allows(limit, -band, figure) => near with
            {
                Outcome = Outcome.Pass,
                Sentence = new Sentence(_ => Explanation.BenefitOfDoubt($"{near.Measured}", limit.ToString(), Band())),
            },
            _ when near.Conformance is not null => near with
            {
                Sentence = new Sentence(version => Explanation.ReadAgain(near.Sentence.In(version))),
            },
            _ => near,
        };

        string Band() => Written.Difference(band, figure.Notation);
    }

    private static bool Allows(Limit limit, decimal inwards, Figure figure) =>
        DecisionRule.Moved(limit, inwards).Allows(figure.Sum, figure.Count);
}
