using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Counts holes, marks or balls against the limit of a rule.</summary>
internal static class CountCheck
{
    /// <summary>The finding, or null when no limit applies.</summary>
    public static Finding? Of(RuleCheck check, Rule.Counted rule)
    {
        if (check.Chosen(rule, rule.Cases, RuleCheck.Ball, out var held) is not { } limitCase)
        {
            return held;
        }

        var inForce = check.InForce(rule, limitCase);
        var (count, subject, path, missing) = rule.Counts switch
        {
            CountedThing.PalmMarks => Whole(check.Facts.Sheet.Marks?.PalmMarks, "marks.palmMarks"),
            CountedThing.Balls => Whole(check.Facts.Sheet.Circumstances?.BallNumber, "circumstances.ballNumber"),
            _ => Holes(rule.Per, rule.Holes!, check.Facts),
        };
        if (missing is not null)
        {
            return Found.NotMeasured(rule, subject, missing, inForce.Case);
        }

        var counted = Amount.Count(count);
        if (inForce.Case.Limit is not { } limit || !inForce.Decides)
        {
            return Found.Unconfirmed(rule, inForce.Case.Reference, subject, path, counted, Allowed.Of(inForce.Case.Limit));
        }

        return Found.Decided(rule, inForce.Reference, limit.Allows(count), subject, path, counted, new Allowed(null, limit),
            (place, version) => place == "count" ? counted.ToString() : check.ValueOf(place, version),
            limit.Exact ? null : new Exact(limit.Margin(count), null));
    }

    private static (int Count, string Subject, string Path, string? Missing) Whole(int? count, string path) =>
        (count ?? 0, RuleCheck.Ball, path, count is null ? path : null);

    /// <summary>The number of holes; where each digit or host hole has its own count, the largest of them.</summary>
    private static (int Count, string Subject, string Path, string? Missing) Holes(CountPer per, HoleChoice choice, SheetFacts facts)
    {
        const string Path = "holes";
        var chosen = facts.Choose(choice);
        if (chosen.Holes is not { } holes)
        {
            return (0, RuleCheck.Ball, Path, chosen.Missing);
        }

        if (per == CountPer.Ball)
        {
            return (holes.Count, RuleCheck.Ball, Path, null);
        }

        Digit? GroupOf(Hole hole) => per == CountPer.Digit ? hole.Digit : hole.In;
        foreach (var (hole, index) in holes.Where(one => GroupOf(one.Hole) is null))
        {
            return (0, RuleCheck.Ball, Path, FormattableString.Invariant($"holes[{index}].{(per == CountPer.Digit ? "digit" : "in")}"));
        }

        var largest = holes.GroupBy(one => GroupOf(one.Hole)!.Value).MaxBy(group => group.Count());
        return largest is null ? (0, RuleCheck.Ball, Path, null)
            : largest.Count() == 1 ? (1, RuleCheck.Ball, Path, null)
            : (largest.Count(), Words.Of(largest.Key), FormattableString.Invariant($"holes[{largest.Last().Index}]"), null);
    }
}
