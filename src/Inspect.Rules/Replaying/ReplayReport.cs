using Inspect.Rules.Judging;

namespace Inspect.Rules.Replaying;

/// <summary>What judging recorded inspections again would change; the records stay as they are.</summary>
/// <param name="Judged">How many were judged again.</param>
/// <param name="Changes">Those whose verdict or rules come out differently, in the order given.</param>
/// <param name="NotJudged">Those that could not be judged again, each with the reason.</param>
/// <param name="SameBytes">How many verdicts came out as exactly the bytes that were recorded; absent where they were not compared.</param>
public sealed record ReplayReport(
    int Judged, IReadOnlyList<ReplayChange> Changes, IReadOnlyList<NotReplayed> NotJudged, int? SameBytes = null)
{
    /// <summary>Errors inside rules during the replay, the first of each rule and cause; never written with the report.</summary>
    public IReadOnlyList<RuleError> RuleErrors { get; init; } = [];

    /// <summary>The report over inspections that were judged again, in the order given. Of those that come out the same nothing is
    /// kept.</summary>
    public static ReplayReport Of(IEnumerable<Replayed> inspections)
    {
        var (changes, notJudged, errors, judged) = (new List<ReplayChange>(), new List<NotReplayed>(), new List<RuleError>(), 0);
        int? sameBytes = null;
        foreach (var one in inspections)
        {
            if (one.Refusal is { } refusal)
            {
                notJudged.Add(new NotReplayed(one.Number, refusal));
                continue;
            }

            judged++;
            foreach (var error in one.RuleErrors)
            {
                if (!errors.Exists(error.IsLike))
                {
                    errors.Add(error);
                }
            }

            if (one.Change is { } change)
            {
                changes.Add(change);
            }

            if (one.HasSameBytes is { } same)
            {
                sameBytes = (sameBytes ?? 0) + (same ? 1 : 0);
            }
        }

        return new ReplayReport(judged, changes, notJudged, sameBytes) { RuleErrors = errors };
    }

    /// <summary>How many verdicts come out differently.</summary>
    public int VerdictsChanged => Changes.Count(change => change.Old != change.New);

    /// <summary>How often each change of a verdict occurs, the most frequent first.</summary>
    public IReadOnlyList<(Outcome Old, Outcome New, int Count)> ByOutcome => Changes.Where(change => change.Old != change.New)
        .GroupBy(change => (change.Old, change.New))
        .Select(group => (group.Key.Old, group.Key.New, Count: group.Count()))
        .OrderByDescending(one => one.Count).ThenBy(one => one.Old).ThenBy(one => one.New).ToList();

    /// <summary>How often each change of a rule's outcome occurs, rule by rule in alphabetical order.</summary>
    public IReadOnlyList<(RuleChange Change, int Count)> ByRule => Changes.SelectMany(change => change.Rules)
        .GroupBy(change => change)
        .Select(group => (Change: group.Key, Count: group.Count()))
        .OrderBy(one => one.Change.Rule, StringComparer.Ordinal).ThenByDescending(one => one.Count).ThenBy(one => one.Change.Old)
        .ThenBy(one => one.Change.New)
        .ToList();
}

/// <summary>What changes for one inspection.</summary>
/// <param name="Number">The inspection.</param>
/// <param name="Old">The verdict's outcome as recorded.</param>
/// <param name="New">The verdict's outcome now.</param>
/// <param name="Edition">The edition it was judged under now; absent when none was in force.</param>
/// <param name="Rules">The rules that come out differently.</param>
public sealed record ReplayChange(string Number, Outcome Old, Outcome New, string? Edition, IReadOnlyList<RuleChange> Rules);

/// <summary>How a rule came out when it was recorded and comes out now, by its most serious finding; absent when it had none.</summary>
public sealed record RuleChange(string Rule, Outcome? Old, Outcome? New);

/// <summary>An inspection that could not be judged again, and why.</summary>
public sealed record NotReplayed(string Number, string Reason);
