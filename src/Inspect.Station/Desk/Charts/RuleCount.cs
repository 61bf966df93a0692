using Inspect.Rules.Judging;

namespace Inspect.Station.Desk.Charts;

/// <summary>In how many inspections a rule was not met, and in how many it stayed open.</summary>
/// <param name="Rule">The rule's id.</param>
/// <param name="Failed">Inspections with a finding of this rule that is not met, each counted once.</param>
/// <param name="Held">Inspections with an open finding of this rule and none that is not met.</param>
public sealed record RuleCount(string Rule, int Failed, int Held)
{
    /// <summary>The rules that were not met or stayed open, most failures first.</summary>
    public static IReadOnlyList<RuleCount> Of(IEnumerable<CountedInspection> inspections) => inspections
        .SelectMany(inspection => inspection.Findings
            .Where(finding => finding.Outcome != Outcome.Pass)
            .GroupBy(finding => finding.Rule)
            .Select(rule => (Rule: rule.Key, IsFailed: rule.Any(finding => finding.Outcome == Outcome.Fail))))
        .GroupBy(each => each.Rule)
        .Select(rule => new RuleCount(rule.Key, rule.Count(each => each.IsFailed), rule.Count(each => !each.IsFailed)))
        .OrderByDescending(rule => rule.Failed).ThenByDescending(rule => rule.Held).ThenBy(rule => rule.Rule, StringComparer.Ordinal)
        .ToList();
}
