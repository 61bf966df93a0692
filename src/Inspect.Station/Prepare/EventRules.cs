using System.Globalization;
using Inspect.Rules.Rulesets;

namespace Inspect.Station.Prepare;

/// <summary>Checks that this station has the rules that an event sets.</summary>
public static class EventRules
{
    /// <summary>What is wrong with the body, the edition or the days; null when there are rules to judge by.</summary>
    public static string? FaultOfRules(string authority, string? edition, DateOnly from, DateOnly to, EditionLibrary library)
    {
        if (library.Of(authority).Count == 0)
        {
            return $"\"{authority}\" is not a body whose rules are on this station; "
                + $"choose one of {string.Join(", ", library.Authorities)}.";
        }

        if (edition is not null)
        {
            return library.TryFind(edition, out var found) && found.Authority == authority
                ? null
                : $"There is no edition \"{edition}\" here; choose one from the list, or the one in force on the day of play.";
        }

        foreach (var day in (DateOnly[])[from, to])
        {
            if (library.InForceOn(authority, day) is null)
            {
                return string.Create(CultureInfo.InvariantCulture,
                    $"\"{authority}\" has no edition in force on {day:d MMMM yyyy}; choose one edition for the whole event.");
            }
        }

        return null;
    }

    /// <summary>What is wrong with a plan: a sentence for each rule that no edition of the event has.</summary>
    public static IEnumerable<string> FaultsOfPlan(
        IEnumerable<string> plan, string authority, string? edition, DateOnly from, DateOnly to, EditionLibrary library)
    {
        var known = Editions(authority, edition, from, to, library).SelectMany(each => each.RuleIds).ToHashSet(StringComparer.Ordinal);
        return plan.Where(rule => !known.Contains(rule))
            .Select(rule => $"\"{rule}\" is not a rule of {edition ?? authority} on these days; "
                + "take it out of the rules that are checked.");
    }

    /// <summary>Everything that an event sets and this station does not have.</summary>
    public static IReadOnlyList<string> Missing(Event held, EditionLibrary library) =>
        FaultOfRules(held.Authority, held.Edition, held.From, held.To, library) is { } fault
            ? [fault]
            : [.. FaultsOfPlan(held.Plan ?? [], held.Authority, held.Edition, held.From, held.To, library)];

    /// <summary>The editions in force on the event's days.</summary>
    public static IReadOnlyList<Edition> InForce(Event held, EditionLibrary library) => held.Edition is { } id
        ? library.TryFind(id, out var named) ? [named] : []
        : Enumerable.Range(0, held.To.DayNumber - held.From.DayNumber + 1)
            .Select(day => library.InForceOn(held.Authority, held.From.AddDays(day))).OfType<Edition>().Distinct().ToList();

    /// <summary>Where a supplement would loosen an edition that is in force: a sentence each.</summary>
    public static IEnumerable<string> Loosened(Event held, Supplement supplement, EditionLibrary library) =>
        InForce(held, library).SelectMany(edition => SupplementCheck.Against(edition, supplement))
            .Select(loosening => loosening.Message).Distinct();

    /// <summary>The revision of the edition that an event is fixed to; null when there is no revision, or when the edition follows
    /// the day of play.</summary>
    public static Edition? RevisionFor(Event held, EditionLibrary library) =>
        held.Edition is { } id && library.TryFind(id, out var named) ? library.RevisionOf(named) : null;

    private static IEnumerable<Edition> Editions(string authority, string? edition, DateOnly from, DateOnly to, EditionLibrary library) =>
        edition is null
            ? library.Of(authority).Where(each => each.From <= to && !(each.Until < from) && !(library.SuccessorOf(each) <= from)
                && library.RevisionOf(each) is null)
            : library.All.Where(each => each.Id == edition);
}
