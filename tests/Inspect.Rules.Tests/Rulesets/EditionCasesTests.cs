using System.Text.Json.Nodes;
using Inspect.Rules.Judging;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>Every case beside every edition, through the real reader and judge: what the published rule says is what comes out.</summary>
public class EditionCasesTests
{
    private const int FewestFailsShown = 20;

    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Judge_EveryCaseOfTheEdition_AgreesWithThePublishedRule(string edition)
    {
        var wrong = EditionCase.Of(edition).Select(Disagreement).OfType<string>().ToList();

        Assert.True(wrong.Count == 0, $"{wrong.Count} cases of {edition} disagree:\n{string.Join("\n", wrong.Take(FewestFailsShown))}");
    }

    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Cases_EveryRuleOfTheEdition_IsPassedAndFailedBySome(string edition)
    {
        var findings = EditionCase.Of(edition).Select(one => one.Judged()).Where(verdict => verdict.Edition?.Id == edition)
            .SelectMany(verdict => verdict.Findings).ToList();
        var decided = Book.Find(edition).Rules
            .Where(rule => rule is not Inspect.Rules.Rulesets.Rule.Limited limited || limited.Cases.Any(limit => limit.Limit is not null))
            .Select(rule => rule.Id).Distinct();

        Assert.All(decided, id => Assert.All(
            new[] { Outcome.Pass, Outcome.Fail },
            outcome => Assert.True(
                findings.Any(finding => finding.Rule == id && finding.Outcome == outcome), $"No case of {edition} makes {id} {outcome}.")));
    }

    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Cases_Names_AreDifferentSentencesWithASourceOfTheEdition(string edition)
    {
        var cases = EditionCase.Of(edition);
        var sources = Book.Find(edition).Sources.Values.Select(source => source.Title)
            .Concat(["common practice, no source", "from memory", "defined by this project's sheet format"]).ToHashSet();

        Assert.Equal(cases.Count, cases.Select(one => one.Name).Distinct().Count());
        Assert.All(cases, one => Assert.True(
            one.Name.Contains(' ', StringComparison.Ordinal) && sources.Contains(one.Source), $"{one.Name}: {one.Source}"));
    }

    /// <summary>Some case of a revision comes out otherwise under what it corrects: in the verdict, a rule, a note or a sentence.</summary>
    [Theory]
    [MemberData(nameof(Book.Revisions), MemberType = typeof(Book))]
    public void Cases_OfARevision_FindWhatItCorrects(string edition)
    {
        var corrected = Book.BuiltIn.All.Where(other => other.Id != edition || other.Revision == 1).ToList();
        var before = new Inspect.Rules.Rulesets.EditionLibrary(corrected);

        Assert.Contains(EditionCase.Of(edition), one => Said(one.Judged()) != Said(one.Judged(before)));
    }

    private static string Said(Verdict verdict) => string.Join("; ", verdict.Findings
        .Select(finding => $"{finding.Rule} {finding.Outcome} {finding.Reason} {finding.Reference}")
        .Concat(verdict.Notes.Select(note => note.Text)));

    private static string? Disagreement(EditionCase one)
    {
        var verdict = one.Judged();
        var wanted = Shown((string)one.Expect["outcome"]!, one.Fails, one.Holds);
        var found = Shown(VerdictJson.WordOf(verdict.Outcome), Ids(verdict, Outcome.Fail), Ids(verdict, Outcome.Hold));
        if (one.Expect.TryGetPropertyValue("edition", out var edition))
        {
            wanted += $", under {(string?)edition ?? "none"}";
            found += $", under {verdict.Edition?.Id ?? "none"}";
        }

        if (one.Expect["notes"] is JsonArray notes)
        {
            wanted += $", notes {string.Join(" ", notes.Select(note => (string)note!))}";
            found += $", notes {string.Join(" ", verdict.Notes.Select(note => note.Id))}";
        }

        foreach (var (rule, said) in one.Expect["says"]?.AsObject() ?? [])
        {
            wanted += $", {rule} says \"{(string?)said}\"";
            found += verdict.Findings.Any(
                finding => finding.Rule == rule && finding.Reason.Contains((string)said!, StringComparison.Ordinal))
                ? $", {rule} says \"{(string?)said}\""
                : $", {rule} says {string.Join(" ", verdict.Findings.Where(finding => finding.Rule == rule).Select(finding => finding.Reason))}";
        }

        return wanted == found ? null : $"{one.Name} ({one.Source}): wanted {wanted}; found {found}";
    }

    private static List<string> Ids(Verdict verdict, Outcome outcome) => verdict.Findings.Where(finding => finding.Outcome == outcome)
        .Select(finding => finding.Rule).Distinct().Order(StringComparer.Ordinal).ToList();

    private static string Shown(string outcome, IEnumerable<string> fails, IEnumerable<string> holds) =>
        $"{outcome}, fails [{string.Join(" ", fails.Order(StringComparer.Ordinal))}], holds "
            + $"[{string.Join(" ", holds.Order(StringComparer.Ordinal))}]";
}
