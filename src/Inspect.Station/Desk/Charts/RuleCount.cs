using Inspect.Rules.Judging;

namespace Inspect.Station.Desk.Charts;

/// <summary>In how many inspections a rule was not met, and in how many it stayed open.</summary>
/// <param name="Rule">The rule's id.</param>
/// <param name="Failed">Inspections with a finding of this rule that is not met, each counted once.</param>
/// <param name="Held">Inspections with an open finding of this rule and none that is not met.</param>
/// <param name="Of">Inspections that the rule was checked in.</param>
public sealed record RuleCount(string Rule, int Failed, int Held, int Of)
{
    /// <summary>The rules that were not met or stayed open, most failures first.</summary>
    public static IReadOnlyList<RuleCount> In(IReadOnlyCollection<CountedInspection> inspections)
    {
        var counts = Counted(inspections);
        var checkedIn = counts.ToDictionary(rule => rule.Rule, _ => 0, StringComparer.Ordinal);
        foreach (var inspection in inspections)
        {
            foreach (var rule in inspection.Findings.Select(finding => finding.Rule).Distinct(StringComparer.Ordinal))
            {
                if (checkedIn.TryGetValue(rule, out var count))
                {
                    checkedIn[rule] = count + 1;
                }
            }
        }

        return [.. counts.Select(rule => rule with { Of = checkedIn[rule.Rule] })];
    }

    private static List<RuleCount> Counted(IEnumerable<CountedInspection> inspections) => inspections
        .SelectMany(inspection => inspection.Findings
            .Where(finding => finding.Outcome != Outcome.Pass)
            .GroupBy(finding => finding.Rule)
            .Select(rule => (Rule: rule.Key, IsFailed: rule.Any(finding => finding.Outcome == Outcome.Fail))))
        .GroupBy(each => each.Rule)
        .Select(rule => new RuleCount(rule.Key, rule.Count(each => each.IsFailed), rule.Count(each => !each.IsFailed), 0))
        .OrderByDescending(rule => rule.Failed).ThenByDescending(rule => rule.Held).ThenBy(rule => rule.Rule, StringComparer.Ordinal)
        .ToList();
}
