using System.Globalization;
using Inspect.Advice;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Judge;
using Inspect.Station.Pictures;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Decision = Inspect.Station.Record.Decision;

namespace Inspect.Station.Slip;

/// <summary>Makes the slip of a recorded inspection with its present standing.</summary>
public sealed class SlipPrinter(
    Events events, People people, EditionLibrary editions, Database database, WriteGate gate, PublicAddress address,
    KeptAdvice advice)
{
    private const int RootCharacters = 12;

    /// <summary>The stock of that name; the label when none is named.</summary>
    public static bool TryStock(string? name, out SlipStock stock)
    {
        stock = SlipStock.Label;
        if (string.IsNullOrEmpty(name))
        {
            return true;
        }

        var known = SlipStock.TryFind(name, out var found);
        stock = found ?? SlipStock.Label;
        return known;
    }

    /// <summary>The slip as a PDF.</summary>
    /// <param name="found">The inspection.</param>
    /// <param name="stock">The paper.</param>
    /// <param name="again">When it was first printed, and when it is printed now; null when this is the first time.</param>
    public byte[] Print(FoundInspection found, SlipStock stock, (DateTimeOffset First, DateTimeOffset Now)? again)
    {
        var content = Content(found);
        var offset = content.RecordedAt.Offset;
        return SlipDocument.Render(
            again is var (first, now) ? content with { Again = (first.ToOffset(offset), now.ToOffset(offset)) } : content, stock).Pdf;
    }

    /// <summary>What the slip says.</summary>
    public SlipContent Content(FoundInspection found)
    {
        var inspection = found.Inspection;
        var held = events.Find(inspection.Event) ?? throw new InvalidDataException(
            $"There is no event {inspection.Event}, which {inspection.Number} names.");
        var head = gate.Head;
        var ball = inspection.Sheet.Ball;
        var terms = TermsOf(inspection);
        var judgedUnder = inspection.Verdict.Edition is { } mark && editions.TryFind(mark.Id, out var edition) ? edition : null;
        return new SlipContent
        {
            Outcome = Of(inspection.Verdict.Outcome),
            Number = inspection.Number.ToString(),
            Code = inspection.Code,
            ScanUrl = ScanAddress.Of(new Uri(address.Root), inspection.Code),
            Event = held.Name,
            GoodFrom = held.From,
            GoodTo = held.To,
            Play = inspection.Sheet.Play,
            Bowler = people.NameOf(inspection.Bowler.Person) ?? "Name struck",
            Entry = inspection.Entry,
            BallMaker = ball?.Maker ?? "maker not written down",
            BallModel = ball?.Model ?? "model not written down",
            BallSerial = ball?.Serial ?? "not written down",
            BallTag = inspection.Tag,
            Grip = GripWords.Of(inspection.Sheet.Grip),
            EditionTitle = judgedUnder?.Title,
            EditionId = inspection.Verdict.Edition?.Id,
            Inspector = people.NameOf(inspection.By.Person) ?? "Name struck",
            RecordedAt = TimeZoneInfo.ConvertTime(inspection.At, TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone)),
            MeasuredAt = inspection.MeasuredAt is { } measured
                ? TimeZoneInfo.ConvertTime(measured, TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone)) : null,
            Supplements = SupplementTitles(inspection.Verdict, terms),
            Findings = inspection.Verdict.Findings.Select(Of).ToList(),
            Reasons = inspection.Verdict.Cause == HoldCause.NoEdition
                ? ["No edition of these rules is in force on the day of play, so nothing can be decided."]
                : [],
            NotChecked = inspection.Verdict.NotChecked.Select(Explanation.RuleTitle).ToList(),
            Supersedes = inspection.Supersedes?.ToString(),
            SupersededBy = found.SupersededBy,
            Ruling = found.Ruling is { } ruling
                ? ruling.Sentence(TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone), people.NameOf(ruling.By))
                : null,
            Standing = found.Ruling?.Decision is { } decision ? Of(decision) : SlipStanding.AsFound,
            Notes =
            [
                .. inspection.Verdict.Notes.Select(note => note.Text), .. DecisionNote(inspection.Verdict),
                .. ConfirmedNotes(inspection.Verdict, people),
            ],
            Advice = judgedUnder is not null
                && advice.Of(new AdviceAsked(inspection.Sheet, judgedUnder, inspection.Verdict, terms)) is { } cures
                ? AdviceWords.Short(cures)
                : null,
            Balance = judgedUnder is null ? null : BalanceDrawing.Of(inspection.Sheet, judgedUnder, terms),
            RegisterSize = head.Size,
            RegisterRoot = head.Edge.Root.ToString()[..RootCharacters],
        };
    }

    private JudgingTerms TermsOf(Inspection inspection)
    {
        using var connection = database.OpenForReading();
        return EventTerms.AsJudged(connection, inspection.Event, inspection.Terms, inspection.Verdict).Terms;
    }

    /// <summary>The titles of the supplements, or their short names when they are no longer at this station.</summary>
    private static List<string> SupplementTitles(Verdict verdict, JudgingTerms terms)
    {
        var titles = terms.Supplements.ToDictionary(supplement => supplement.Sha256, supplement => supplement.Title);
        return verdict.Supplements.Select(mark => titles.GetValueOrDefault(mark.Sha256, mark.Id)).ToList();
    }

    private static IEnumerable<string> ConfirmedNotes(Verdict verdict, People people) => verdict.Findings
        .Where(finding => finding.Confirmed is not null)
        .GroupBy(finding => finding.Confirmed!)
        .Select(group => string.Create(CultureInfo.InvariantCulture,
            $"Limit confirmed by {people.NameOf(PersonId.From(group.Key.By)) ?? "name struck"} on {group.Key.On:yyyy-MM-dd} "
            + $"from {group.Key.Document}: {string.Join(", ", group.Select(finding => Explanation.RuleTitle(finding.Rule)).Distinct())}."));

    private static IEnumerable<string> DecisionNote(Verdict verdict) =>
        verdict.DecisionRule.Kind == DecisionKind.Simple ? [] : [Explanation.DecisionSentence(verdict.DecisionRule)];

    private static SlipFinding Of(Finding finding) => new(
        Explanation.RuleTitle(finding.Rule), finding.Subject, ReadingWords.Of(finding),
        finding.Limit?.ToString(), finding.Margin is { Measure: not null } margin ? margin.ToString() : null, Of(finding.Outcome),
        finding.Reason);

    private static SlipStanding Of(Decision decision) => decision switch
    {
        Decision.Accept => SlipStanding.Accepted,
        Decision.Allow => SlipStanding.Allowed,
        Decision.Remeasure or Decision.Recall => SlipStanding.CalledBack,
        _ => SlipStanding.Withdrawn,
    };

    private static SlipOutcome Of(Outcome outcome) => outcome switch
    {
        Outcome.Pass => SlipOutcome.Pass,
        Outcome.Fail => SlipOutcome.Fail,
        _ => SlipOutcome.Hold,
    };
}
