using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.Desk;

/// <summary>The choices of the desk's filters: value and words.</summary>
/// <param name="Events">Every event, newest first.</param>
/// <param name="Running">The event that has a day today, by the time at its venue; the last begun if there are several,
/// null if there is none.</param>
/// <param name="Officials">Everyone with a sign-in.</param>
/// <param name="Rules">Every rule of an edition, and every other rule that an inspection left open.</param>
/// <param name="Editions">Every edition.</param>
/// <param name="Instruments">Every instrument used for a reading.</param>
public sealed record DeskChoices(
    IReadOnlyList<Event> Events, Event? Running, IReadOnlyList<Official> Officials, IReadOnlyList<(string Value, string Words)> Rules,
    IReadOnlyList<(string Value, string Words)> Editions, IReadOnlyList<string> Instruments)
{
    /// <summary>The choices now.</summary>
    public static DeskChoices Now(Database database, Events events, SignIns signIns, EditionLibrary editions, TimeProvider time)
    {
        using var connection = database.OpenForReading();
        var all = events.All();
        return new DeskChoices(
            all,
            all.FirstOrDefault(held => held.Includes(held.DayAt(time.GetUtcNow()))),
            signIns.All(),
            [.. editions.RuleIds.Union(FindSearch.EachOnce(connection, "inspection_rule", "rule"))
                .Select(rule => (rule, Explanation.RuleTitle(rule))).OrderBy(rule => rule.Item2, StringComparer.Ordinal)],
            [.. editions.All.Select(edition => (edition.Id, edition.Title))],
            [.. FindSearch.EachOnce(connection, "inspection_instrument", "instrument")]);
    }

    /// <summary>The event with a short name, or null.</summary>
    public Event? EventOf(string id) => Events.FirstOrDefault(held => held.Id == id);
}
