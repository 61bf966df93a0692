using System.Collections.Concurrent;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Replaying;

/// <summary>Judges recorded inspections again under another edition, supplement or decision rule, and says what would change. The
/// inspections stay as they are.</summary>
public sealed class Replay
{
    private readonly EditionLibrary _library;
    private readonly ReplayTarget _target;
    private readonly ConcurrentDictionary<string, string?> _loosenings = new(StringComparer.Ordinal);

    /// <param name="library">All known editions.</param>
    /// <param name="target">What inspections are judged under now.</param>
    /// <exception cref="ArgumentException">The target names an edition or a body that is not known.</exception>
    public Replay(EditionLibrary library, ReplayTarget target)
    {
        Known(library, target);
        (_library, _target) = (library, target);
    }

    /// <summary>The report over inspections, each under the verdict it was recorded with.</summary>
    /// <exception cref="ArgumentException">The target names an edition or a body that is not known.</exception>
    public static ReplayReport Of(IEnumerable<RecordedInspection> inspections, EditionLibrary library, ReplayTarget target) =>
        ReplayReport.Of(inspections.Select(new Replay(library, target).Judged));

    /// <summary>Judges one inspection again. Several may be judged at once.</summary>
    public Replayed Judged(RecordedInspection inspection)
    {
        var (edition, refusal) = EditionFor(inspection);
        if (edition is not null)
        {
            refusal ??= _loosenings.GetOrAdd(edition.Id, _ => Loosening(edition, _target.Terms));
        }

        if (refusal is not null)
        {
            return new Replayed(inspection.Number) { Refusal = refusal };
        }

        var verdict = edition is null ? Judge.WithoutEdition() : Judge.Under(edition, inspection.Sheet, _target.Terms);
        return new Replayed(inspection.Number)
        {
            Change = ChangeOf(inspection, verdict),
            HasSameBytes = inspection.Version is { } version ? HasSameBytes(inspection.Verdict, verdict, version) : null,
            RuleErrors = verdict.RuleErrors,
        };
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
    private (Edition? Edition, string? Refusal) EditionFor(RecordedInspection inspection)
    {
        switch (_target)
        {
            case ReplayTarget.OneEdition one:
                return (_library.TryFind(one.Id, out var named) ? named : null, null);
            case ReplayTarget.EditionsOf editions:
                return (_library.InForceOn(editions.Authority, inspection.Sheet.Play), null);
            default:
                return inspection.Verdict.Edition is not { } mark ? (null, null)
                    : !_library.TryFind(mark.Id, out var own) ? (null, $"Its edition \"{mark.Id}\" is not known here.")
                    : own.Sha256 != mark.Sha256 ? (null, $"Its edition \"{mark.Id}\" has other bytes here than when it was recorded.")
                    : (_target is ReplayTarget.Revised ? _library.RevisionOf(own) ?? own : own, null);
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
