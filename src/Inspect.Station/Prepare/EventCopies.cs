using Dapper;
using Inspect.Rules.Rulesets;
using Inspect.Station.Storage;

namespace Inspect.Station.Prepare;

/// <summary>Gives a new event what another event adds to its edition, as far as it fits the rules of the new one.</summary>
public static class EventCopies
{
    /// <summary>Copies supplements, terms, spot checks, the rule for checks of instruments and the tables' terms. Limits that a director
    /// confirmed from a document, and the wall screen's link, belong to the other event.</summary>
    /// <returns>What was left out and why, a sentence each.</returns>
    public static IReadOnlyList<string> Copy(WriteTransaction write, string fromEvent, Event to, EditionLibrary library, ChangedBy by)
    {
        var (connection, transaction) = (write.Connection, write.Transaction);
        var leftOut = new List<string>();
        var supplements = connection.Query<SupplementRow>(
            "SELECT supplement AS Id, body AS Body FROM event_supplement WHERE event = @fromEvent ORDER BY supplement", new { fromEvent },
            transaction).AsList();
        var rules = EventRules.InForce(to, library).SelectMany(edition => edition.RuleIds).ToHashSet(StringComparer.Ordinal);
        foreach (var row in supplements)
        {
            if (SupplementLoader.Load(row.Body, []) is not { } supplement)
            {
                leftOut.Add($"{row.Id} cannot be read.");
            }
            else if (EventRules.Loosened(to, supplement, library).FirstOrDefault() is { } loosened)
            {
                leftOut.Add($"{supplement.Title}: {loosened}");
            }
            else
            {
                EventTerms.Add(write, to.Id, supplement, row.Body, by.Person, by.At);
                rules.UnionWith(supplement.RuleIds);
            }
        }

        var terms = EventTerms.Of(connection, fromEvent, transaction);
        if (terms.DrawSalt.Length > 0)
        {
            EventTerms.Set(
                write, to.Id, terms.Judging, terms.FreezeMinutes, terms.Shares.Where(share => rules.Contains(share.Key)).ToDictionary());
        }

        var events = new { fromEvent, to.Id };
        connection.Execute(
            "INSERT INTO event_check (event, hours, required) SELECT @Id, hours, required FROM event_check WHERE event = @fromEvent",
            events, transaction);
        connection.Execute(
            """
            INSERT INTO event_table (event, most_balls, wall_names) SELECT @Id, most_balls, wall_names FROM event_table WHERE event = @fromEvent
            """,
            events, transaction);
        return leftOut;
    }

    private sealed record SupplementRow(string Id, byte[] Body);
}
