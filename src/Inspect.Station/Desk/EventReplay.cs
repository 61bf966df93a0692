using Inspect.Rules.Replaying;
using Inspect.Rules.Rulesets;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;

namespace Inspect.Station.Desk;

/// <summary>Judges an event's recorded inspections again under other rules.</summary>
public sealed class EventReplay(
    Events events, EditionLibrary editions, InspectionLookup lookup, Database database, ILogger<ReplayReport> log)
{
    /// <summary>The report, or null with the faults added.</summary>
    public ReplayReport? Of(ReplayAsked asked, Faults faults)
    {
        if (events.Find(asked.Event) is not { } held)
        {
            faults.Add("event", $"There is no event \"{asked.Event}\" on this station.");
            return null;
        }

        if (asked.Edition is not ("" or ReplayAsked.Revised) && !editions.TryFind(asked.Edition, out _))
        {
            faults.Add("edition", $"There is no edition \"{asked.Edition}\".");
        }

        using var connection = database.OpenForReading();
        var terms = EventTerms.Of(connection, held.Id).Judging;
        if (asked.Decision.Length > 0)
        {
            terms = terms with { DecisionRule = asked.Rule(faults) };
        }

        if (!faults.AreNone)
        {
            return null;
        }

        ReplayTarget target = asked.Edition switch
        {
            "" => new ReplayTarget.OwnEdition(),
            ReplayAsked.Revised => new ReplayTarget.Revised(),
            _ => new ReplayTarget.OneEdition(asked.Edition),
        };
        var inspections = lookup.AllOf(held.Id).Select(one => new RecordedInspection(one.Number.ToString(), one.Sheet, one.Verdict));
        var report = Replay.Of(inspections, editions, target with { Terms = terms });
        RuleErrorLog.Write(log, report.RuleErrors);
        return report;
    }
}
