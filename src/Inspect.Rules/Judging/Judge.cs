using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Judges a sheet under an edition and an event's terms: the same three give the same verdict, always.</summary>
public static class Judge
{
    /// <summary>The verdict of an edition on a sheet.</summary>
    /// <param name="edition">The edition.</param>
    /// <param name="sheet">The sheet.</param>
    /// <param name="terms">What the event adds to the edition; absent means nothing.</param>
    public static Verdict Under(Edition edition, Sheet sheet, JudgingTerms? terms = null)
    {
        terms ??= JudgingTerms.None;
        var facts = new SheetFacts(sheet, edition.HouseBall);
        var errors = new List<RuleError>();
        var findings = Findings(edition.Rules, edition.Id, facts, terms, errors);
        for (var i = 0; i < findings.Count; i++)
        {
            findings[i] = Decided(findings[i], terms);
        }

        foreach (var supplement in terms.Supplements)
        {
            var own = new SheetFacts(sheet, supplement.HouseBall ?? edition.HouseBall);
            findings.AddRange(Findings(supplement.Rules, supplement.Id, own, terms, errors)
                .Select(finding => finding with { Supplement = supplement.Id }));
        }

        return new Verdict
        {
            Outcome = Verdict.Of(findings),
            Edition = new EditionMark(edition.Id, edition.Sha256),
            Supplements = terms.Supplements.Select(SupplementMark.Of).ToList(),
            DecisionRule = terms.DecisionRule,
            Findings = findings,
            NotChecked = sheet.Plan is { } plan ? RuleIds(edition, terms).Where(id => !plan.Contains(id)).ToList() : [],
            Notes = Notes(edition, facts, findings),
            RuleErrors = errors,
        };
    }

    /// <summary>The verdict when no edition of the authority is in force on the day of play.</summary>
    public static Verdict WithoutEdition() => new() { Outcome = Outcome.Hold, Cause = HoldCause.NoEdition, Findings = [] };

    private static IEnumerable<string> RuleIds(Edition edition, JudgingTerms terms) =>
        edition.RuleIds.Concat(terms.Supplements.SelectMany(supplement => supplement.RuleIds)).Distinct(StringComparer.Ordinal);

    private static List<Finding> Findings(
        IReadOnlyList<Rule> rules, string source, SheetFacts facts, JudgingTerms terms, List<RuleError> errors)
    {
        var (check, findings) = (new RuleCheck(facts, terms), new List<Finding>(rules.Count + 8));
        for (var i = 0; i < rules.Count; i++)
        {
            if (facts.Sheet.Plan?.Contains(rules[i].Id) ?? true)
            {
                AddFindings(rules[i], source, check, findings, errors);
            }
        }

        return findings;
    }

    private static void AddFindings(Rule rule, string source, RuleCheck check, List<Finding> findings, List<RuleError> errors)
    {
        var before = findings.Count;
        try
        {
            check.Of(rule, findings);
        }
#pragma warning disable CA1031 // Whatever goes wrong inside a rule, the ball is held and never passed.
        catch (Exception error)
#pragma warning restore CA1031
        {
            errors.Add(new RuleError(rule.Id, source, error));
            findings.RemoveRange(before, findings.Count - before);
            findings.Add(new Finding(rule.Id, RuleCheck.Ball, null, Outcome.Hold, HoldCause.RuleError, null, null, null,
                new Sentence(Explanation.RuleError), rule.Reference));
        }
    }

    /// <summary>The finding after the supplements decided what the edition leaves
    /// to the director; one that bars outweighs one that allows.</summary>
    private static Finding Decided(Finding finding, JudgingTerms terms)
    {
        if (finding.Cause != HoldCause.Discretion)
        {
            return finding;
        }

        var (supplement, decision) = terms.Supplements
            .SelectMany(supplement => supplement.Decides.Select(decision => (supplement, decision)))
            .Where(one => one.decision.Rule == finding.Rule)
            .OrderByDescending(one => one.decision.Discretion == Discretion.Bar)
            .FirstOrDefault();
        return decision is null ? finding : finding with
        {
            Outcome = decision.Discretion == Discretion.Allow ? Outcome.Pass : Outcome.Fail,
            Cause = null,
            Sentence = new Sentence(Explanation.DecidedBy(finding.Reason, supplement.Title, decision.Discretion == Discretion.Allow)),
            Reference = decision.Reference,
            Supplement = supplement.Id,
        };
    }

    private static bool Lies(NotedReading reading, SheetFacts facts) =>
        Figure.Of(reading.Quantity, reading.Statistic, facts) is { } figure && reading.Limit.Allows(figure.Sum, figure.Count);

    private static List<Note> Notes(Edition edition, SheetFacts facts, List<Finding> findings)
    {
        var notes = edition.Notes
            .Where(note => facts.Holds(note.When).Value == true && (note.Reading is not { } reading || Lies(reading, facts)))
            .Select(note => new Note(note.Id, note.Text))
            .ToList();
        if (findings.Count == 0)
        {
            notes.Add(new Note("nothing-judged", Explanation.NothingJudged));
        }

        return notes;
    }
}
