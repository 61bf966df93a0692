using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Checks something that must be so, or must not be so.</summary>
internal static class StateCheck
{
    private static readonly Dictionary<Fact, string> Names = FactList.Names.ToDictionary(pair => pair.Value, pair => pair.Key);

    private static readonly Dictionary<Fact, string> Marks = Names.ToDictionary(pair => pair.Key, pair => $"marks.{pair.Value}");

    public static Finding OfHole(RuleCheck check, Rule.Stated rule, Hole hole, int index, string subject) =>
        Of(check, rule, check.Facts.Flag(rule.Fact, hole, index, rule.Among), subject, HolePath(rule.Fact, index));

    public static Finding OfBall(RuleCheck check, Rule.Stated rule) =>
        Of(check, rule, check.Facts.Flag(rule.Fact), RuleCheck.Ball, BallPath(rule.Fact));

    private static Finding Of(RuleCheck check, Rule.Stated rule, FactState answer, string subject, string path)
    {
        if (answer.Value is not { } value)
        {
            return Found.NotMeasured(rule, subject, answer.Missing!);
        }

        var measured = value ? rule.Answers.True : rule.Answers.False;
        var limit = rule.Wanted ? rule.Answers.True : rule.Answers.False;
        var confirmation = rule.Reference.Basis == Basis.Memory ? check.Terms.Confirming(rule.Id, limit) : null;
        return rule.Reference.Basis == Basis.Memory && confirmation is null
            ? Found.Unconfirmed(rule, rule.Reference, subject, path, new Amount(measured), new Allowed(limit))
            : value != rule.Wanted && check.LeftToDirector(rule, path, measured, limit) is { } held ? held
            : Found.Decided(
                rule, (rule.Reference, confirmation?.Mark), value == rule.Wanted, subject, path, new Amount(measured), new Allowed(limit));
    }

    private static string BallPath(Fact fact) => fact switch
    {
        Fact.Demonstrated => "grip.demonstrated",
        Fact.ThumbHoleUsed => "grip.digits",
        Fact.Drilled or Fact.ThumbHole => "holes",
        Fact.HouseBall => "ball.houseBall",
        Fact.HouseBallSuppliedByCentre => "ball.houseBall.suppliedByCentre",
        Fact.HouseBallDrilledForBowler => "ball.houseBall.drilledForBowler",
        Fact.HighPerformanceCore => "ball.highPerformanceCore",
        Fact.PlayBegan => "circumstances.playBegan",
        Fact.Frozen => "circumstances.frozen",
        _ => Marks[fact],
    };

    private static string HolePath(Fact fact, int index) => fact == Fact.DigitUsed
        ? $"holes[{index}]"
        : $"holes[{index}].{Names[fact]}";
}
