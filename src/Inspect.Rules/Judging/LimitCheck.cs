using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Judging;

/// <summary>Compares readings with the limit of a rule.</summary>
internal static class LimitCheck
{
    /// <summary>The findings on one hole and on each interchangeable piece of it; none when no limit applies.</summary>
    public static void OfHole(RuleCheck check, Rule.Limited rule, int index, string subject, List<Finding> found)
    {
        if (check.Chosen(rule, rule.Cases, subject, out var held) is not { } limitCase)
        {
            if (held is not null)
            {
                found.Add(held);
            }

            return;
        }

        var (inForce, everywhere) = (check.InForce(rule, limitCase), check.Facts.Said(rule.Quantity));
        for (var i = 0; i < everywhere.Count; i++)
        {
            if (everywhere[i] is var said && said.Hole == index)
            {
                found.Add(One(
                    check, rule, inForce, (Reading?)said.Value, said.Path,
                    said.Piece is { } piece ? Words.Piece(subject, piece) : subject));
            }
        }
    }

    /// <summary>The finding on a quantity of the ball, or null when no limit applies.</summary>
    public static Finding? OfBall(RuleCheck check, Rule.Limited rule)
    {
        if (check.Chosen(rule, rule.Cases, RuleCheck.Ball, out var held) is not { } limitCase)
        {
            return held;
        }

        if (rule.Quantity == RuleQuantity.Made)
        {
            return MadeSince(check, rule, limitCase);
        }

        var (facts, inForce) = (check.Facts, check.InForce(rule, limitCase));
        var figure = rule.Statistic == Statistic.Each
            ? Worst(Figure.Readings(rule.Quantity, facts), inForce.Case.Limit)
            : Figure.Of(rule.Quantity, rule.Statistic, facts);
        if (figure is null && rule.Statistic != Statistic.Spread && facts.Gauged(rule.Quantity) is var (gauge, gaugePath))
        {
            return ByGauge(rule, inForce, gauge, gaugePath);
        }

        if (figure is null)
        {
            return Found.NotMeasured(rule, RuleCheck.Ball, Catalogue.Of(rule.Quantity).Path, inForce.Case);
        }

        var valid = facts.Holds(rule.Valid);
        return valid.Value is null
            ? Found.NotMeasured(rule, RuleCheck.Ball, valid.Missing!, inForce.Case) with { Measured = figure.Beside(null) }
            : valid.Value == false ? OutsideValidity(rule, inForce.Case, figure, facts)
            : Compare(check, rule, inForce, figure, RuleCheck.Ball);
    }

    /// <summary>A gauge decides only where everything that it lets through conforms; else the ball has to be measured.</summary>
    private static Finding ByGauge(Rule.Limited rule, LimitInForce inForce, GaugeLimits gauge, string path)
    {
        if (inForce.Case.Limit is not { } limit || !inForce.Decides)
        {
            return Found.Unconfirmed(
                rule, inForce.Case.Reference, RuleCheck.Ball, path, new Amount(gauge.Text), Allowed.Of(inForce.Case.Limit));
        }

        var decides = limit.Allows(gauge.Least.Value) && limit.Allows(gauge.Most.Value);
        return decides
            ? new Finding(rule.Id, RuleCheck.Ball, path, Outcome.Pass, null, new Amount(gauge.Text), Allowed.Of(limit), null,
                new Sentence(_ => Explanation.Goes(gauge.Text, limit.ToString())), inForce.Reference.Read,
                Confirmed: inForce.Confirmed)
            : Found.NotMeasured(rule, RuleCheck.Ball, Catalogue.Of(rule.Quantity).Path, inForce.Case) with
            {
                Measured = new Amount(gauge.Text),
                Sentence = new Sentence(_ => Explanation.GaugeTooWide(gauge.Text, limit.ToString())),
            };
    }

    private static Finding One(RuleCheck check, Rule.Limited rule, LimitInForce inForce, Reading? reading, string path, string subject) =>
        reading is null
            ? Found.NotMeasured(rule, subject, path, inForce.Case)
            : Compare(check, rule, inForce, Figure.Single(reading, path), subject);

    /// <summary>The reading that fails, else the one nearest to an end; a
    /// reading on an exclusive end fails with a margin of zero.</summary>
    private static Figure? Worst(List<Figure> readings, Limit? limit)
    {
        var worst = readings.Count > 0 ? readings[0] : null;
        for (var i = 1; i < readings.Count && limit is not null; i++)
        {
            var (one, other) = (limit.Allows(readings[i].Sum), limit.Allows(worst!.Sum));
            if (one == other ? limit.Margin(readings[i].Sum) < limit.Margin(worst.Sum) : other)
            {
                worst = readings[i];
            }
        }

        return worst;
    }

    private static Finding OutsideValidity(Rule.Limited rule, LimitCase limitCase, Figure figure, SheetFacts facts) =>
        new(rule.Id, RuleCheck.Ball, figure.Path, Outcome.Hold, HoldCause.NotMeasured,
            figure.Beside(null), Allowed.Of(limitCase.Limit), null,
            new Sentence(Explanation.NotValid("the temperature", facts.Sheet.Hardness?.Temperature?.Text ?? "not written down")),
            limitCase.Reference);

    private static Finding MadeSince(RuleCheck check, Rule.Limited rule, LimitCase written)
    {
        const string Path = "ball.made";
        var inForce = check.InForce(rule, written, NotBefore(written.Limit));
        var (limitCase, made, limit) = (inForce.Case, check.Facts.Sheet.Ball?.Made, NotBefore(inForce.Case.Limit));
        if (limitCase.Limit?.Least is not { } least || !inForce.Decides)
        {
            var measured = made is null ? null : new Amount(made.Text);
            return Found.Unconfirmed(rule, limitCase.Reference, RuleCheck.Ball, Path, measured, Allowed.Of(limit));
        }

        if (made is null || (made.First.DayNumber < least.Value && made.Last.DayNumber >= least.Value))
        {
            return Found.NotMeasured(rule, RuleCheck.Ball, Path, limitCase);
        }

        return Found.Decided(rule, inForce.Reference, made.First.DayNumber >= least.Value, RuleCheck.Ball, Path, new Amount(made.Text),
            new Allowed(limit), check.ValueOf);
    }

    private static string? NotBefore(Limit? limit) => limit?.Least is { } least ? $"not before {least.Text}" : null;

    private static Finding Compare(RuleCheck check, Rule.Limited rule, LimitInForce inForce, Figure figure, string subject)
    {
        if (inForce.Case.Limit is not { } limit || !inForce.Decides)
        {
            return Found.Unconfirmed(
                rule, inForce.Case.Reference, subject, figure.Path, figure.Beside(null), Allowed.Of(inForce.Case.Limit));
        }

        var (passes, margin) = (limit.Allows(figure.Sum, figure.Count), figure.MarginTo(limit));
        var compared = Found.Decided(
            rule, inForce.Reference, passes, subject, figure.Path, figure.Beside(limit), new Allowed(null, limit),
            (place, version) => place switch
            {
                "excess" => Written.Difference(
                    Math.Abs(margin.Value), version == VerdictJson.WordsOnly ? figure.Notation : margin.Notation!.Value),
                "size" => Written.As(Math.Abs(figure.Sum / figure.Count), figure.Notation),
                "heavier" => Sides().Heavier,
                "lighter" => Sides().Lighter,
                _ => check.ValueOf(place, version),
            },
            margin);
        var standard = check.Terms.StandardOf(rule.Quantity, rule.Statistic, figure.Count);
        return NearLimit.Decide(compared, limit, figure, check.Terms.DecisionRule, standard);

        (string Heavier, string Lighter) Sides() => Catalogue.Of(rule.Quantity).Sides?.By(figure.Reading?.Value ?? 0) ?? ("one", "other");
    }
}
