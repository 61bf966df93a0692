using Inspect.Rules.Rulesets;

namespace Inspect.Station.Rulesets;

/// <summary>One rule as two editions have it.</summary>
/// <param name="Rule">The rule's id.</param>
/// <param name="Check">Which of its checks, where it has several.</param>
/// <param name="One">Lines of the first edition; empty when it has no such check.</param>
/// <param name="Other">Lines of the second edition; empty when it has no such check.</param>
public sealed record ComparedRule(string Rule, string? Check, IReadOnlyList<string> One, IReadOnlyList<string> Other)
{
    public bool Changed => !One.SequenceEqual(Other);
}

/// <summary>Two editions side by side, check by check, as a reader would compare them.</summary>
public static class EditionComparison
{
    /// <summary>Every check and note of either edition, in the order of the second
    /// and then of the first; of revisions also where a rule was read.</summary>
    public static IReadOnlyList<ComparedRule> Of(Edition one, Edition other)
    {
        var keys = other.Rules.Concat(one.Rules).Select(rule => (rule.Id, rule.Check)).Distinct();
        var sources = one.Authority == other.Authority && one.From == other.From;
        var notes = other.Notes.Concat(one.Notes).Select(note => note.Id).Distinct();
        return keys.Select(key => new ComparedRule(key.Id, key.Check, Lines(one, key, sources), Lines(other, key, sources)))
            .Concat(notes.Select(id => new ComparedRule("note", id, Note(one, id), Note(other, id)))).ToList();
    }

    private static List<string> Note(Edition edition, string id) =>
        edition.Notes.Where(note => note.Id == id).Select(note => note.Text).ToList();

    private static List<string> Lines(Edition edition, (string Id, string? Check) key, bool sources)
    {
        if (edition.Rules.FirstOrDefault(rule => rule.Id == key.Id && rule.Check == key.Check) is not { } found)
        {
            return [];
        }

        var lines = new List<string> { RuleInWords.Subject(found) };
        if (RuleInWords.Applies(found) is { } applies)
        {
            lines.Add(applies);
        }

        lines.AddRange(RuleInWords.Cases(found).Select(one =>
            (one.When is null ? one.Limit : $"{one.Limit}, when {one.When}")
                + (one.Reference.Basis == Basis.Memory ? " (from memory)" : "")));
        if (sources)
        {
            lines.AddRange(RuleInWords.Cases(found).Select(one => one.Reference).Distinct()
                .Select(read =>
                    $"read in: {read.Title}{(read.Section is null ? "" : $", {read.Section}")} ({RuleInWords.Basis(read.Basis)})"));
        }

        return lines;
    }
}
