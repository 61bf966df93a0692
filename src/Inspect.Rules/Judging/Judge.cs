using Inspect.Rules.Rulesets;
using Inspect.Rules.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Judges a sheet under an edition: the same sheet and edition give the same verdict, always.</summary>
public static class Judge
{
    /// <summary>The verdict of an edition on a sheet.</summary>
    public static Verdict Under(Edition edition, Sheet sheet)
    {
        var facts = new SheetFacts(sheet, edition.HouseBall);
        var findings = new List<Finding>();
        foreach (var rule in edition.Rules.Where(rule => sheet.Plan?.Contains(rule.Id) ?? true))
        {
            findings.AddRange(Findings(rule, facts));
        }

        return new Verdict
        {
            Outcome = Verdict.Of(findings),
            Edition = new EditionMark(edition.Id, edition.Sha256),
            Findings = findings,
            NotChecked = sheet.Plan is { } plan ? edition.RuleIds.Where(id => !plan.Contains(id)).ToList() : [],
            Notes = Notes(edition, facts, findings),
        };
    }

    /// <summary>The verdict when no edition of the authority is in force on the day of play.</summary>
    public static Verdict WithoutEdition() => new() { Outcome = Outcome.Hold, Cause = HoldCause.NoEdition, Findings = [] };

    private static IEnumerable<Finding> Findings(Rule rule, SheetFacts facts)
    {
        try
        {
            return RuleCheck.Of(rule, facts);
        }
#pragma warning disable CA1031 // Whatever goes wrong inside a rule, the ball is held and never passed.
        catch (Exception)
#pragma warning restore CA1031
        {
            return [new Finding(rule.Id, RuleCheck.Ball, null, Outcome.Hold, HoldCause.RuleError, null, null, null, Explanation.RuleError, rule.Reference)];
        }
    }

    private static List<Note> Notes(Edition edition, SheetFacts facts, List<Finding> findings)
    {
        var notes = edition.Notes
            .Where(note => Figure.Of(note.Quantity, note.Statistic, facts.Sheet) is { } figure && note.Limit.Allows(figure.Sum, figure.Count))
            .Select(note => new Note(note.Id, note.Text))
            .ToList();
        if (findings.Count == 0)
        {
            notes.Add(new Note("nothing-judged", Explanation.NothingJudged));
        }

        return notes;
    }
}
