using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Applies rules to one sheet.</summary>
internal sealed class RuleCheck(SheetFacts facts, JudgingTerms terms)
{
    /// <summary>The subject of a rule that is not about a single hole.</summary>
    public const string Ball = "ball";

    public SheetFacts Facts { get; } = facts;

    public JudgingTerms Terms { get; } = terms;

    /// <summary>Adds the findings of a rule: none when it does not apply, one for the ball, or one for each hole and piece.</summary>
    public void Of(Rule rule, List<Finding> found)
    {
        var (when, unless) = (Facts.Holds(rule.When), rule.Unless is null ? FactState.No : Facts.Holds(rule.Unless));
        if (when.Value == false || unless.Value == true)
        {
            return;
        }

        if ((when.Missing ?? unless.Missing) is { } missing)
        {
            found.Add(Found.NotMeasured(rule, Ball, missing));
        }
        else if (HolesOf(rule) is { } choice)
        {
            OfHoles(rule, choice, found);
        }
        else if (OfBall(rule) is { } finding)
        {
            found.Add(finding);
        }
    }

    /// <summary>The first case whose condition holds. Without one the rule does not apply; where a condition cannot be answered, the
    /// finding is a hold.</summary>
    public LimitCase? Chosen(Rule rule, IReadOnlyList<LimitCase> cases, string subject, out Finding? held)
    {
        held = null;
        for (var i = 0; i < cases.Count; i++)
        {
            var candidate = cases[i];
            var answer = Facts.Holds(candidate.When);
            if (answer.Value == true)
            {
                return candidate;
            }

            if (answer.Value is null)
            {
                held = Found.NotMeasured(rule, subject, answer.Missing!);
                return null;
            }
        }

        return null;
    }

    /// <summary>The limit with the director's confirmation applied.</summary>
    /// <param name="rule">The rule it belongs to.</param>
    /// <param name="limitCase">The limit as the rule writes it.</param>
    /// <param name="shown">The limit in words, where they are not the limit's own.</param>
    public LimitInForce InForce(Rule rule, LimitCase limitCase, string? shown = null)
    {
        var unsure = limitCase.Reference.Basis == Basis.Memory;
        var confirmation = unsure ? Terms.Confirming(rule.Id, shown ?? limitCase.Limit?.ToString()) : null;
        var given = confirmation?.Given is { } found && (rule as Rule.Limited)?.Quantity == found.Quantity ? found.Limit : null;
        var limit = limitCase.Limit ?? given;
        var decides = limit is not null && (!unsure || confirmation is not null);
        return new LimitInForce(limitCase with { Limit = limit }, decides, confirmation?.Mark);
    }

    /// <summary>The hold of a ball that does not meet a rule but is left to the director, or may be; null when the ball fails.</summary>
    public Finding? LeftToDirector(Rule rule, string path, string measured, string limit)
    {
        var discretion = rule.Discretion is null ? FactState.No : Facts.Holds(rule.Discretion);
        return discretion.Missing is { } missing ? Found.NotMeasured(rule, Ball, missing)
            : discretion.Value == false ? null
            : new Finding(rule.Id, Ball, path, Outcome.Hold, HoldCause.Discretion, new Amount(measured), new Allowed(limit), null,
                new Sentence(rule.Sentences.Hold ?? Explanation.Discretion), rule.Reference);
    }

    /// <summary>The words from the sheet for a place in a sentence of any rule; the same in every version of the record.</summary>
    public string? ValueOf(string place, int version) => place switch
    {
        "gross" => Facts.Sheet.Weights?.Gross?.Text,
        "readings" => Facts.Sheet.Hardness?.Readings is { } readings ? string.Join(", ", readings.Select(reading => reading.Text)) : null,
        "temperature" => Facts.Sheet.Hardness?.Temperature?.Text,
        _ => null,
    };

    // A count of holes is one finding for the ball.
    private static HoleChoice? HolesOf(Rule rule) => (rule as Rule.Limited)?.Holes ?? (rule as Rule.Stated)?.Holes;

    private Finding? OfBall(Rule rule) => rule switch
    {
        Rule.Limited limited => LimitCheck.OfBall(this, limited),
        Rule.Counted counted => CountCheck.Of(this, counted),
        Rule.Stated stated => StateCheck.OfBall(this, stated),
        Rule.Barred barred => BarCheck.Of(Facts, Terms, barred),
        Rule.Listed listed => ListCheck.Of(this, listed),
        _ => throw new ArgumentOutOfRangeException(nameof(rule)),
    };

    private void OfHoles(Rule rule, HoleChoice choice, List<Finding> found)
    {
        var chosen = Facts.Choose(choice);
        if (chosen.Holes is not { } holes)
        {
            found.Add(Found.NotMeasured(rule, Ball, chosen.Missing!));
            return;
        }

        for (var i = 0; i < holes.Count; i++)
        {
            var (hole, index) = holes[i];
            var subject = Words.Subject(hole, index);
            if (rule is Rule.Stated stated)
            {
                found.Add(StateCheck.OfHole(this, stated, hole, index, subject));
            }
            else
            {
                LimitCheck.OfHole(this, (Rule.Limited)rule, index, subject, found);
            }
        }
    }
}

/// <summary>A limit and whether it may decide.</summary>
/// <param name="Case">The limit; the director's where the edition has none.</param>
/// <param name="Decides">False for one known from memory that nobody confirmed.</param>
/// <param name="Confirmed">Who confirmed it, where that was needed.</param>
internal readonly record struct LimitInForce(LimitCase Case, bool Decides, ConfirmedBy? Confirmed)
{
    /// <summary>What a finding names for it.</summary>
    public (Reference Read, ConfirmedBy? Confirmed) Reference => (Case.Reference, Confirmed);
}
