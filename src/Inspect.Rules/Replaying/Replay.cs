using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Replaying;

/// <summary>Judges recorded inspections again under another edition, supplement or decision rule, and says what would change.</summary>
public static class Replay
{
    /// <summary>The report; the inspections stay as they are.</summary>
    /// <param name="inspections">The inspections, each under the verdict it was recorded with.</param>
    /// <param name="library">All known editions.</param>
    /// <param name="target">What they are judged under now.</param>
    /// <exception cref="ArgumentException">The target names an edition or a body that is not known.</exception>
    public static ReplayReport Of(IEnumerable<RecordedInspection> inspections, EditionLibrary library, ReplayTarget target)
    {
        Known(library, target);
        var loosenings = new Dictionary<string, string?>(StringComparer.Ordinal);
        var (changes, notJudged, errors, judged) = (new List<ReplayChange>(), new List<NotReplayed>(), new List<RuleError>(), 0);
        int? sameBytes = null;
        foreach (var inspection in inspections)
        {
            var (edition, refusal) = EditionFor(inspection, library, target);
            if (edition is not null && refusal is null && !loosenings.TryGetValue(edition.Id, out refusal))
            {
                loosenings[edition.Id] = refusal = Loosening(edition, target.Terms);
            }

            if (refusal is not null)
            {
                notJudged.Add(new NotReplayed(inspection.Number, refusal));
                continue;
            }

            judged++;
            var verdict = edition is null ? Judge.WithoutEdition() : Judge.Under(edition, inspection.Sheet, target.Terms);
            errors.AddRange(verdict.RuleErrors);
            if (ChangeOf(inspection, verdict) is { } change)
            {
                changes.Add(change);
            }

            if (inspection.Version is { } version)
            {
                sameBytes = (sameBytes ?? 0) + (HasSameBytes(inspection.Verdict, verdict, version) ? 1 : 0);
            }
        }

        return new ReplayReport(judged, changes, notJudged, sameBytes) { RuleErrors = errors };
    }

    private static void Known(EditionLibrary library, ReplayTarget target)
    {
        if (target is ReplayTarget.OneEdition { Id: var id } && !library.TryFind(id, out _))
        {
            throw new ArgumentException($"\"{id}\" is not an edition known here.", nameof(target));
        }

        if (target is ReplayTarget.EditionsOf { Authority: var authority } && library.Of(authority).Count == 0)
        {
            throw new ArgumentException($"\"{authority}\" is not a body known here.", nameof(target));
        }
    }

    /// <summary>The edition an inspection is judged under now, null for none in force; or why it cannot be.</summary>
    private static (Edition? Edition, string? Refusal) EditionFor(RecordedInspection inspection, EditionLibrary library,
        ReplayTarget target)
    {
        switch (target)
        {
            case ReplayTarget.OneEdition one:
                return (library.TryFind(one.Id, out var named) ? named : null, null);
            case ReplayTarget.EditionsOf editions:
                return (library.InForceOn(editions.Authority, inspection.Sheet.Play), null);
            default:
                return inspection.Verdict.Edition is not { } mark ? (null, null)
                    : !library.TryFind(mark.Id, out var own) ? (null, $"Its edition \"{mark.Id}\" is not known here.")
                    : own.Sha256 != mark.Sha256 ? (null, $"Its edition \"{mark.Id}\" has other bytes here than when it was recorded.")
                    : (target is ReplayTarget.Revised ? library.RevisionOf(own) ?? own : own, null);
        }
    }

    private static string? Loosening(Edition edition, JudgingTerms terms) =>
        terms.Supplements.SelectMany(supplement => SupplementCheck.Against(edition, supplement)).FirstOrDefault()?.Message;

    private static ReplayChange? ChangeOf(RecordedInspection inspection, Verdict verdict)
    {
        var (before, after) = (Outcomes(inspection.Verdict), Outcomes(verdict));
        var rules = before.Keys.Union(after.Keys, StringComparer.Ordinal)
            .Select(rule => new RuleChange(rule, Found(before, rule), Found(after, rule)))
            .Where(change => change.Old != change.New)
            .ToList();
        return rules.Count == 0 && verdict.Outcome == inspection.Verdict.Outcome ? null
            : new ReplayChange(inspection.Number, inspection.Verdict.Outcome, verdict.Outcome, verdict.Edition?.Id, rules);
    }

    /// <summary>Whether a verdict is written as the bytes that were recorded, in the form of that version.</summary>
    private static bool HasSameBytes(Verdict recorded, Verdict verdict, int version) => recorded.Edition == verdict.Edition
        && recorded.Outcome == verdict.Outcome
        && VerdictJson.Recorded(recorded, version).ToJsonString() == VerdictJson.Recorded(verdict, version).ToJsonString();

    /// <summary>How each rule came out, in the order of the verdict: a fail outweighs a hold, and a hold a pass.</summary>
    private static Dictionary<string, Outcome> Outcomes(Verdict verdict) =>
        verdict.Findings.GroupBy(finding => finding.Rule, StringComparer.Ordinal)
        .ToDictionary(group => group.Key, group => Verdict.Of(group.ToList()), StringComparer.Ordinal);

    private static Outcome? Found(Dictionary<string, Outcome> outcomes, string rule) =>
        outcomes.TryGetValue(rule, out var outcome) ? outcome : null;
}
