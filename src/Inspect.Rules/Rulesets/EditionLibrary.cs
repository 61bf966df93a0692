using System.Diagnostics.CodeAnalysis;

namespace Inspect.Rules.Rulesets;

/// <summary>All known editions, and which of them is in force on a day of play.</summary>
public sealed class EditionLibrary
{
    private readonly SortedDictionary<string, List<Edition>> _byAuthority = new(StringComparer.Ordinal);

    /// <exception cref="ArgumentException">Two editions have the same authority, first day and revision.</exception>
    public EditionLibrary(IEnumerable<Edition> editions)
    {
        foreach (var edition in editions)
        {
            if (!_byAuthority.TryGetValue(edition.Authority, out var list))
            {
                _byAuthority[edition.Authority] = list = [];
            }

            if (list.Any(other => other.Id == edition.Id))
            {
                throw new ArgumentException($"There are two editions \"{edition.Id}\"; keep one.", nameof(editions));
            }

            list.Add(edition);
        }

        foreach (var list in _byAuthority.Values)
        {
            list.Sort((one, other) => (one.From, one.Revision).CompareTo((other.From, other.Revision)));
        }

        RuleIds = All.SelectMany(edition => edition.RuleIds).ToHashSet(StringComparer.Ordinal);
    }

    /// <summary>Every body that has an edition.</summary>
    public IEnumerable<string> Authorities => _byAuthority.Keys;

    /// <summary>Every edition, by authority, then by day and revision.</summary>
    public IEnumerable<Edition> All => _byAuthority.Values.SelectMany(list => list);

    /// <summary>Every rule id that some edition uses.</summary>
    public IReadOnlySet<string> RuleIds { get; }

    /// <summary>The authority's editions from the oldest on, each before its revisions; empty when it has none.</summary>
    public IReadOnlyList<Edition> Of(string authority) => _byAuthority.GetValueOrDefault(authority) ?? [];

    /// <summary>The highest revision of an edition's body and day, or null when the edition itself is the highest.</summary>
    public Edition? RevisionOf(Edition edition) =>
        Of(edition.Authority).LastOrDefault(other => other.From == edition.From && other.Revision > edition.Revision);

    /// <summary>The edition of an authority in force on a day, in its highest revision; null when none is.</summary>
    public Edition? InForceOn(string authority, DateOnly play) =>
        Of(authority).LastOrDefault(edition => edition.From <= play) is { } latest && !(latest.Until < play) ? latest : null;

    /// <summary>The day on which the next edition begins, or null when this one is the last.</summary>
    public DateOnly? SuccessorOf(Edition edition) =>
        Of(edition.Authority).FirstOrDefault(other => other.From > edition.From)?.From;

    /// <summary>The edition with this id.</summary>
    public bool TryFind(string id, [NotNullWhen(true)] out Edition? edition) =>
        (edition = All.FirstOrDefault(candidate => candidate.Id == id)) is not null;
}
