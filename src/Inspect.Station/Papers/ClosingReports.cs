using System.Globalization;
using Inspect.Ledger;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Desk.Charts;
using Inspect.Station.Instruments;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Rulesets;
using Inspect.Station.Storage;
using Decision = Inspect.Station.Record.Decision;

namespace Inspect.Station.Papers;

/// <summary>Makes the closing report of an event from the present state of the register.</summary>
public sealed class ClosingReports(
    Database database, Events events, EventFigures figures, OpenLists openLists, People people, EditionLibrary editions, WriteGate gate,
    StationKey key,
    TimeProvider time)
{
    private const int MostTries = 3;

    /// <summary>The report at one state of the register. When an entry is added in the meantime it is made again, so that it
    /// never mixes two states.</summary>
    public ClosingReport Of(Event held, SignedIn by)
    {
        for (var tries = 1; ; tries++)
        {
            var head = gate.Head;
            var report = At(head, held, by);
            if (gate.Head.Size == head.Size || tries == MostTries)
            {
                return report;
            }
        }
    }

    private ClosingReport At(RegisterHead head, Event held, SignedIn by)
    {
        using var connection = database.OpenForReading();
        var rulings = RulingIndex.InForceAt(connection, held.Id);
        var supplements = EventTerms.Supplements(connection, held.Id);
        var inspections = figures.Read(held, new ChartsAsked("", "", ""));
        var names = figures.Inspectors(held).ToDictionary(one => one.Id, one => one.Name);
        var zone = TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone);
        var first = held.From.ToDateTime(default);
        var ruledOn = rulings.ToDictionary(ruling => ruling.Inspection.ToString(), ruling => ruling.Decision);
        var entries = inspections.ToDictionary(one => one.Number, one => one.Entry);
        var young = YoungBowlers.Of(connection, held.Id);
        var outcomes = inspections.ToDictionary(one => one.Number, one => one.Outcome);
        return new ClosingReport
        {
            Number = string.Create(CultureInfo.InvariantCulture, $"{held.Id}-R{head.Size:000000}"),
            IssuedAt = TimeZoneInfo.ConvertTime(time.GetUtcNow(), zone),
            IssuedBy = $"{by.Name}, {by.Role.Word()}",
            Station = key.Public.Name,
            Event = held.Name,
            Days = EventWords.Days(held),
            TimeZone = held.TimeZone,
            Names = NamesKept.Sentence(held, held.DayAt(time.GetUtcNow()), EventChanges.LastStrike(connection, null, held.Id)?.At),
            Authority = editions.OfEvent(held),
            Measured = inspections.Count == 0 ? null : (inspections.Min(one => one.At), inspections.Max(one => one.At)),
            Entries = events.EntriesOf(held.Id).Count(entry => !entry.IsWithdrawn),
            Balls = inspections.Select(one => one.Ball ?? one.Number).Distinct(StringComparer.Ordinal).Count(),
            Inspections = inspections.Count,
            Editions = Used(inspections.Select(one => one.Under.Edition).OfType<RulesMark>(), mark => editions.OfEdition(mark.Id)!),
            Supplements = Used(
                inspections.SelectMany(one => one.Under.Supplements),
                mark => supplements.FirstOrDefault(each => each.Sha256 == mark.Sha256)?.Title ?? mark.Id),
            Decisions = [.. inspections.GroupBy(one => (one.Under.Decision, one.Under.GuardFactor))
                .Select(group => (Sentence(group.Key.Decision, group.Key.GuardFactor), group.Count()))],
            Standing = Standings(inspections, ruledOn),
            PerDay = [.. inspections.GroupBy(one => one.Play).OrderBy(day => day.Key).Select(day => new DayOfPlay(
                day.Key, day.Count(), Count(day, Outcome.Pass), Count(day, Outcome.Fail), Count(day, Outcome.Hold)))],
            AtTheTables = DayAtTheTables.Of(inspections),
            Rules = RuleCount.In(inspections),
            Replaced = [.. inspections.Where(one => one.SupersededBy is not null).Select(one => new Replacement(
                one.Number, Word(one.Outcome), one.SupersededBy!, outcomes.TryGetValue(one.SupersededBy!, out var later)
                    ? Word(later)
                    : "not in this event"))],
            Rulings = [.. rulings.Select(ruling => (ruling.Inspection.ToString(), ruling
                .ForAnyone(young, entries.GetValueOrDefault(ruling.Inspection.ToString(), "")).Sentence(zone, people.NameOf(ruling.By))))],
            SpotChecks = SpotCheckIndex.Counted(connection, held.Id),
            Open = [.. openLists.Read(openLists.Of(held).Places).Select(item => item with
            {
                Points = [.. item.Points.Select(point => young.Shown(point, item.Entry)!)],
            })],
            Inspectors = [.. inspections.GroupBy(one => one.By)
                .Select(group => (names.GetValueOrDefault(group.Key, "name struck"), group.Count()))
                .OrderByDescending(one => one.Item2)],
            Instruments = FailureShare.ByInstrument(inspections),
            Checks = Checks.Counted(connection, new DateTimeOffset(first, zone.GetUtcOffset(first)), time.GetUtcNow()),
            RegisterSize = head.Size,
            RegisterRoot = head.Edge.Root.ToString(),
            Checkpoint = key.Sign(head),
            Fingerprint = key.Public.Fingerprint,
        };
    }

    private static List<RulesUsed> Used(IEnumerable<RulesMark> marks, Func<RulesMark, string> nameOf) =>
        [.. marks.GroupBy(mark => mark).OrderByDescending(group => group.Count())
            .Select(group => new RulesUsed(nameOf(group.Key), group.Key, group.Count()))];

    // What counts now: replaced inspections are left out, and a ruling comes before the verdict.
    private static IReadOnlyList<(string Words, int Inspections)> Standings(
        IReadOnlyList<CountedInspection> inspections, Dictionary<string, Decision> ruledOn)
    {
        string[] order =
        [
            "conform: every rule that was checked is met", "accepted at the director's discretion",
            "allowed on a condition that is still open",
            "undecided: something is open", "to be measured again", "do not conform: at least one reading is outside its limit",
            "withdrawn or taken back: they say nothing about their ball",
        ];
        var counts = inspections.Where(one => one.SupersededBy is null)
            .CountBy(one => (ruledOn.TryGetValue(one.Number, out var decision) ? decision : (Decision?)null, one.Outcome) switch
            {
                (Decision.Withdraw or Decision.Undo, _) => 6,
                (Decision.Accept, _) => 1,
                (Decision.Allow, _) => 2,
                (Decision.Remeasure or Decision.Recall, _) => 4,
                (_, Outcome.Pass) => 0,
                (_, Outcome.Hold) => 3,
                _ => 5,
            }).ToDictionary();
        return [.. order.Select((words, i) => (words, counts.GetValueOrDefault(i))).Where(each => each.Item2 > 0)];
    }

    private static string Sentence(string? decision, string? factor) => Explanation.DecisionSentence(
        decision is null || !decimal.TryParse(factor, NumberStyles.Number, CultureInfo.InvariantCulture, out var wide)
            || !DecisionRule.Takes(wide) ? DecisionRule.Simple
        : decision == VerdictJson.WordOf(DecisionKind.GuardedAcceptance) ? DecisionRule.GuardedAcceptance(wide)
        : DecisionRule.GuardedRejection(wide));

    private static int Count(IEnumerable<CountedInspection> inspections, Outcome outcome) =>
        inspections.Count(one => one.Outcome == outcome);

    private static string Word(Outcome outcome) => Explanation.OutcomeTitle(outcome);
}
