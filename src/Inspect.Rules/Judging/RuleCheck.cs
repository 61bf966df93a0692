using System.Globalization;
using Inspect.Rules.Readings;
using Inspect.Rules.Rulesets;
using Inspect.Rules.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Puts one rule to one sheet.</summary>
internal static class RuleCheck
{
    /// <summary>The subject of a rule that looks at no single hole.</summary>
    public const string Ball = "ball";

    /// <summary>The findings of a rule: none when it does not apply, one for the ball, or one for each hole.</summary>
    public static IReadOnlyList<Finding> Of(Rule rule, SheetFacts facts)
    {
        var (when, unless) = (facts.Holds(rule.When), rule.Unless is null ? Answer.No : facts.Holds(rule.Unless));
        if (when.Value == false || unless.Value == true)
        {
            return [];
        }

        if ((when.Missing ?? unless.Missing) is { } missing)
        {
            return [NotMeasured(rule, Ball, missing)];
        }

        return rule switch
        {
            Rule.Limited { Holes: { } choice } limited => EachHole(rule, facts, choice, (hole, index, subject) => HoleLimit(limited, facts, hole, index, subject)),
            Rule.Limited limited => BallLimit(limited, facts) is { } finding ? [finding] : [],
            Rule.Counted counted => Count(counted, facts) is { } finding ? [finding] : [],
            Rule.Stated { Holes: { } choice } stated => EachHole(rule, facts, choice, (hole, index, subject) =>
                State(stated, facts.Flag(stated.Fact, hole, index, stated.Among), subject, StatePath(stated.Fact, index))),
            Rule.Stated stated => [State(stated, facts.Flag(stated.Fact), Ball, BallPath(stated.Fact))],
            Rule.Listed listed => [List(listed, facts)],
            _ => throw new ArgumentOutOfRangeException(nameof(rule)),
        };
    }

    private static List<Finding> EachHole(Rule rule, SheetFacts facts, HoleChoice choice, Func<Hole, int, string, Finding?> check)
    {
        var chosen = facts.Choose(choice);
        return chosen.Holes is not { } holes
            ? [NotMeasured(rule, Ball, chosen.Missing!)]
            : holes.Select(one => check(one.Hole, one.Index, Explanation.Subject(one.Hole, one.Index))).OfType<Finding>().ToList();
    }

    private static Finding? HoleLimit(Rule.Limited rule, SheetFacts facts, Hole hole, int index, string subject)
    {
        var (reading, path) = rule.Quantity == RuleQuantity.HoleDiameter
            ? (hole.Diameter, FormattableString.Invariant($"holes[{index}].diameter"))
            : (hole.Depth, FormattableString.Invariant($"holes[{index}].depth"));
        return Chosen(rule, rule.Cases, facts, subject, out var held) is not { } limitCase ? held
            : reading is null ? NotMeasured(rule, subject, path, limitCase)
            : Compare(rule, limitCase, Figure.Single(reading, path), facts, subject);
    }

    private static Finding? BallLimit(Rule.Limited rule, SheetFacts facts)
    {
        if (Chosen(rule, rule.Cases, facts, Ball, out var held) is not { } limitCase)
        {
            return held;
        }

        if (rule.Quantity == RuleQuantity.Made)
        {
            return MadeSince(rule, limitCase, facts);
        }

        var figure = rule.Statistic == Statistic.Each
            ? Worst(Figure.Readings(rule.Quantity, facts.Sheet), limitCase.Limit)
            : Figure.Of(rule.Quantity, rule.Statistic, facts.Sheet);
        if (figure is null)
        {
            return NotMeasured(rule, Ball, Figure.PathOf(rule.Quantity), limitCase);
        }

        var valid = facts.Holds(rule.Valid);
        return valid.Value is null ? NotMeasured(rule, Ball, valid.Missing!, limitCase) with { Measured = figure.Text }
            : valid.Value == false ? OutsideValidity(rule, limitCase, figure, facts)
            : Compare(rule, limitCase, figure, facts, Ball);
    }

    /// <summary>The reading that fails, else the one nearest to an end; a reading on an exclusive end fails with a margin of zero.</summary>
    private static Figure? Worst(IReadOnlyList<Figure> readings, Limit? limit) => readings
        .OrderBy(reading => limit?.Allows(reading.Sum)).ThenBy(reading => limit?.Margin(reading.Sum)).FirstOrDefault();

    private static Finding OutsideValidity(Rule.Limited rule, LimitCase limitCase, Figure figure, SheetFacts facts) =>
        new(rule.Id, Ball, figure.Path, Outcome.Hold, HoldCause.NotMeasured, figure.Text, limitCase.Limit?.ToString(), null,
            Explanation.NotValid("the temperature", facts.Sheet.Hardness?.Temperature?.Text ?? "not written down"), limitCase.Reference);

    private static Finding MadeSince(Rule.Limited rule, LimitCase limitCase, SheetFacts facts)
    {
        const string Path = "ball.made";
        if (limitCase.Limit?.Least is not { } least || limitCase.Reference.Basis == Basis.Memory)
        {
            var from = limitCase.Limit?.Least is { } unsure ? $"not before {unsure.Text}" : null;
            return new Finding(rule.Id, Ball, Path, Outcome.Hold, HoldCause.LimitUnconfirmed, facts.Sheet.Ball?.Made?.Text, from, null,
                Explanation.Unconfirmed(from), limitCase.Reference);
        }

        var first = least.Value;
        if (facts.Sheet.Ball?.Made is not { } made || (made.First.DayNumber < first && made.Last.DayNumber >= first))
        {
            return NotMeasured(rule, Ball, Path, limitCase);
        }

        var outcome = made.First.DayNumber >= first ? Outcome.Pass : Outcome.Fail;
        var limit = $"not before {least.Text}";
        return Decided(rule, limitCase.Reference, outcome, Ball, Path, made.Text, limit, null, Values(facts, made.Text, limit, Ball));
    }

    private static Finding Compare(Rule.Limited rule, LimitCase limitCase, Figure figure, SheetFacts facts, string subject)
    {
        if (limitCase.Limit is not { } limit || limitCase.Reference.Basis == Basis.Memory)
        {
            return new Finding(rule.Id, subject, figure.Path, Outcome.Hold, HoldCause.LimitUnconfirmed, figure.Text, limitCase.Limit?.ToString(), null,
                Explanation.Unconfirmed(limitCase.Limit?.ToString()), limitCase.Reference);
        }

        var measured = figure.Beside(limit);
        var values = Values(facts, measured, limit.ToString(), subject);
        var margin = limit.Margin(figure.Sum, figure.Count);
        values["excess"] = Written.Difference(Math.Abs(margin), figure.Notation);
        values["size"] = Written.As(Math.Abs(figure.Sum / figure.Count), figure.Notation);
        (values["heavier"], values["lighter"]) = Sides(rule.Quantity, figure.Reading?.Value ?? 0);
        var outcome = limit.Allows(figure.Sum, figure.Count) ? Outcome.Pass : Outcome.Fail;
        return Decided(rule, limitCase.Reference, outcome, subject, figure.Path, measured, limit.ToString(),
            Written.Difference(margin, figure.Notation), values);
    }

    private static Finding? Count(Rule.Counted rule, SheetFacts facts)
    {
        if (Chosen(rule, rule.Cases, facts, Ball, out var held) is not { } limitCase)
        {
            return held;
        }

        var (count, subject, path, missing) = rule.Holes is { } choice ? HoleCount(rule.Per, choice, facts)
            : facts.Sheet.Marks?.PalmMarks is { } marks ? (marks, Ball, "marks.palmMarks", null)
            : (0, Ball, "marks.palmMarks", "marks.palmMarks");
        if (missing is not null)
        {
            return NotMeasured(rule, subject, missing, limitCase);
        }

        var text = count.ToString(CultureInfo.InvariantCulture);
        if (limitCase.Limit is not { } limit || limitCase.Reference.Basis == Basis.Memory)
        {
            return new Finding(rule.Id, subject, path, Outcome.Hold, HoldCause.LimitUnconfirmed, text, limitCase.Limit?.ToString(), null,
                Explanation.Unconfirmed(limitCase.Limit?.ToString()), limitCase.Reference);
        }

        var values = Values(facts, text, limit.ToString(), subject);
        values["count"] = text;
        var outcome = limit.Allows(count) ? Outcome.Pass : Outcome.Fail;
        var margin = limit.Exact ? null : limit.Margin(count).ToString("0", CultureInfo.InvariantCulture);
        return Decided(rule, limitCase.Reference, outcome, subject, path, text, limit.ToString(), margin, values);
    }

    /// <summary>The number of holes; counted apart, the largest number for any one digit or host hole.</summary>
    private static (int Count, string Subject, string Path, string? Missing) HoleCount(CountPer per, HoleChoice choice, SheetFacts facts)
    {
        var chosen = facts.Choose(choice);
        if (chosen.Holes is not { } holes)
        {
            return (0, Ball, "holes", chosen.Missing);
        }

        if (per == CountPer.Ball)
        {
            return (holes.Count, Ball, "holes", null);
        }

        Digit? GroupOf(Hole hole) => per == CountPer.Digit ? hole.Digit : hole.In;
        foreach (var (hole, index) in holes.Where(one => GroupOf(one.Hole) is null))
        {
            return (0, Ball, "holes", FormattableString.Invariant($"holes[{index}].{(per == CountPer.Digit ? "digit" : "in")}"));
        }

        var largest = holes.GroupBy(one => GroupOf(one.Hole)!.Value).MaxBy(group => group.Count());
        return largest is null ? (0, Ball, "holes", null)
            : largest.Count() == 1 ? (1, Ball, "holes", null)
            : (largest.Count(), Words.Of(largest.Key), FormattableString.Invariant($"holes[{largest.Last().Index}]"), null);
    }

    private static Finding State(Rule.Stated rule, Answer answer, string subject, string path)
    {
        if (answer.Value is not { } value)
        {
            return NotMeasured(rule, subject, answer.Missing!);
        }

        var measured = value ? rule.Answers.True : rule.Answers.False;
        var limit = rule.Wanted ? rule.Answers.True : rule.Answers.False;
        var values = new Dictionary<string, string?>(StringComparer.Ordinal) { ["measured"] = measured, ["limit"] = limit, ["subject"] = subject };
        if (rule.Reference.Basis == Basis.Memory)
        {
            return new Finding(rule.Id, subject, path, Outcome.Hold, HoldCause.LimitUnconfirmed, measured, limit, null, Explanation.Unconfirmed(limit), rule.Reference);
        }

        return Decided(rule, rule.Reference, value == rule.Wanted ? Outcome.Pass : Outcome.Fail, subject, path, measured, limit, null, values);
    }

    private static Finding List(Rule.Listed rule, SheetFacts facts)
    {
        const string Path = "ball.listed";
        if (facts.Sheet.Ball?.Listed is not ({ } listed and not Listing.Unknown))
        {
            return NotMeasured(rule, Ball, Path);
        }

        if (rule.Reference.Basis == Basis.Memory)
        {
            return new Finding(rule.Id, Ball, Path, Outcome.Hold, HoldCause.LimitUnconfirmed, Words.Of(listed), null, null, Explanation.Unconfirmed(null), rule.Reference);
        }

        var values = Values(facts, Words.Of(listed), null, Ball);
        if (listed == Listing.No && rule.Discretion is not null)
        {
            var discretion = facts.Holds(rule.Discretion);
            if (discretion.Value is null)
            {
                return NotMeasured(rule, Ball, discretion.Missing!);
            }

            if (discretion.Value == true)
            {
                return new Finding(rule.Id, Ball, Path, Outcome.Hold, HoldCause.Discretion, "not listed", "listed", null, Explanation.Discretion, rule.Reference);
            }
        }

        var alsoApproved = rule.AlsoApproved is null || listed == Listing.Yes ? Answer.No : facts.Holds(rule.AlsoApproved);
        if (alsoApproved.Value is null)
        {
            return NotMeasured(rule, Ball, alsoApproved.Missing!);
        }

        if (alsoApproved.Value == true)
        {
            return Decided(rule, rule.Reference, Outcome.Pass, Ball, Path, "not listed", "listed or approved besides", null, values);
        }

        var passes = listed == Listing.Yes;
        return Decided(rule, rule.Reference, passes ? Outcome.Pass : Outcome.Fail, Ball, Path, passes ? "listed" : "not listed", "listed", null, values);
    }

    /// <summary>The first case whose condition holds; none means that the rule does not apply, one left open that it holds.</summary>
    private static LimitCase? Chosen(Rule rule, IReadOnlyList<LimitCase> cases, SheetFacts facts, string subject, out Finding? held)
    {
        held = null;
        foreach (var candidate in cases)
        {
            var answer = facts.Holds(candidate.When);
            if (answer.Value == true)
            {
                return candidate;
            }

            if (answer.Value is null)
            {
                held = NotMeasured(rule, subject, answer.Missing!);
                return null;
            }
        }

        return null;
    }

    private static Dictionary<string, string?> Values(SheetFacts facts, string measured, string? limit, string subject) => new(StringComparer.Ordinal)
    {
        ["measured"] = measured,
        ["limit"] = limit,
        ["subject"] = subject,
        ["gross"] = facts.Sheet.Weights?.Gross?.Text,
        ["readings"] = facts.Sheet.Hardness?.Readings is { } readings ? string.Join(", ", readings.Select(reading => reading.Text)) : null,
        ["temperature"] = facts.Sheet.Hardness?.Temperature?.Text,
    };

    private static (string Heavier, string Lighter) Sides(RuleQuantity quantity, decimal value) => (quantity, value >= 0) switch
    {
        (RuleQuantity.TopBottom, true) => ("top", "bottom"),
        (RuleQuantity.TopBottom, false) => ("bottom", "top"),
        (RuleQuantity.LeftRight, true) => ("right", "left"),
        (RuleQuantity.LeftRight, false) => ("left", "right"),
        (RuleQuantity.FingerThumb, true) => ("finger", "thumb"),
        (RuleQuantity.FingerThumb, false) => ("thumb", "finger"),
        _ => ("one", "other"),
    };

    private static string BallPath(Fact fact) => fact switch
    {
        Fact.Demonstrated => "grip.demonstrated",
        Fact.ThumbHoleUsed => "grip.digits",
        Fact.Drilled => "holes",
        Fact.HouseBall => "ball.houseBall",
        Fact.HouseBallSuppliedByCentre => "ball.houseBall.suppliedByCentre",
        Fact.HouseBallDrilledForBowler => "ball.houseBall.drilledForBowler",
        _ => $"marks.{NameOf(fact)}",
    };

    private static string StatePath(Fact fact, int index) => fact == Fact.DigitUsed
        ? FormattableString.Invariant($"holes[{index}]")
        : FormattableString.Invariant($"holes[{index}].{NameOf(fact)}");

    private static string NameOf(Fact fact) => FactList.Names.First(pair => pair.Value == fact).Key;

    private static Finding Decided(
        Rule rule, Reference reference, Outcome outcome, string subject, string path, string measured, string? limit, string? margin, Dictionary<string, string?> values) =>
        new(rule.Id, subject, path, outcome, null, measured, limit, margin,
            Placeholders.Fill(outcome == Outcome.Pass ? rule.Sentences.Pass : rule.Sentences.Fail, values), reference);

    private static Finding NotMeasured(Rule rule, string subject, string missing, LimitCase? limitCase = null) =>
        new(rule.Id, subject, missing, Outcome.Hold, HoldCause.NotMeasured, null, limitCase?.Limit?.ToString(), null,
            Explanation.NotMeasured(missing), limitCase?.Reference ?? rule.Reference);
}
