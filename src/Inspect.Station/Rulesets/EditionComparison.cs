using Inspect.Rules.Rulesets;

namespace Inspect.Station.Rulesets;

/// <summary>One check as it stands in two editions.</summary>
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
    /// <summary>Every check of either edition, in the order of the second and then of the first.</summary>
    public static IReadOnlyList<ComparedRule> Of(Edition one, Edition other)
    {
        var keys = other.Rules.Concat(one.Rules).Select(rule => (rule.Id, rule.Check)).Distinct();
        return keys.Select(key => new ComparedRule(key.Id, key.Check, Lines(one, key), Lines(other, key))).ToList();
    }

    private static List<string> Lines(Edition edition, (string Id, string? Check) key)
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
            (one.When is null ? one.Limit : $"{one.Limit}, when {one.When}") + (one.Reference.Basis == Basis.Memory ? " (from memory)" : "")));
        return lines;
    }
}
