using Dapper;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Station.Access;
using Inspect.Station.Instruments;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Rulesets;
using Inspect.Station.Storage;
using Decision = Inspect.Station.Record.Decision;

namespace Inspect.Station.Desk;

/// <summary>Collects the story of a ball from every source.</summary>
public sealed class BallStories(
    Database database, InspectionLookup lookup, Events events, People people, EditionLibrary editions, Photographs photographs)
{
    /// <summary>The story of a ball, or null when nothing is recorded of it.</summary>
    public BallStory? Of(string ball)
    {
        var found = lookup.OfBall(ball)
            .Select(row => InspectionNumber.TryParse(row.Number, out var number) ? lookup.ByNumber(number) : null)
            .OfType<FoundInspection>().ToList();

        // Add a further source as one more line here.
        Happening[] all =
        [
            .. found.Select((inspection, index) => Recorded(inspection, index == 0 ? null : found[index - 1])),
            .. found.SelectMany(Ruled),
            .. found.SelectMany(Compared),
            .. found.Where(each => each.Alert is not null).Select(Alerted),
            .. found.SelectMany(Photographed),
            .. Checked(found),
        ];
        return found.Count == 0
            ? null
            : new BallStory(ball, found[^1], [.. all.OrderBy(happening => happening.At).ThenBy(happening => happening.Seq)]);
    }

    private Happening Recorded(FoundInspection found, FoundInspection? before)
    {
        var inspection = found.Inspection;
        return new Happening
        {
            At = inspection.At,
            Seq = found.Seq,
            Title = $"{inspection.Number} recorded",
            Href = $"/inspections/{inspection.Number}",
            Event = inspection.Event,
            Entry = inspection.Entry,
            Who = people.NameOf(inspection.By.Person),
            Outcome = VerdictJson.WordOf(inspection.Verdict.Outcome),
            Sentences = [.. Sentences(found)],
            Changes = before is null
                ? []
                : [
                    .. Verdicts(before.Inspection.Verdict, inspection.Verdict),
                    .. SheetLines.Changes(before.Inspection.Sheet, inspection.Sheet),
                ],
            Readings = Readings(inspection),
        };
    }

    private IEnumerable<Happening> Ruled(FoundInspection found) => found.Rulings.Select(ruling => new Happening
    {
        At = ruling.At,
        Seq = ruling.Seq,
        Title = ruling.Decision switch
        {
            Decision.Recall => $"{ruling.Inspection} called back",
            Decision.Undo => $"{ruling.Inspection} taken back",
            _ => $"Ruling on {ruling.Inspection}",
        },
        Href = $"/inspections/{ruling.Inspection}",
        Event = found.Inspection.Event,
        Entry = found.Inspection.Entry,
        Who = people.NameOf(ruling.By),
        Sentences = [ruling.Sentence(Zone(found.Inspection.Event), people.NameOf(ruling.By))],
    });

    private IEnumerable<Happening> Compared(FoundInspection found) => found.SpotChecks.Select(check => new Happening
    {
        At = check.At,
        Seq = check.Seq,
        Title = $"Spot check with {check.Inspection}",
        Href = $"/inspections/{check.Inspection}",
        Event = found.Inspection.Event,
        Entry = found.Inspection.Entry,
        Who = people.NameOf(check.By),
        Sentences = [check.Sentence(Zone(found.Inspection.Event), people.NameOf(check.By))],
    });

    private Happening Alerted(FoundInspection found) => new()
    {
        At = found.Alert!.At,
        Seq = found.Alert.Seq,
        Title = $"{found.Inspection.Number} differs from slip {found.Alert.Slip} after the freeze",
        Href = $"/inspections/{found.Inspection.Number}",
        Event = found.Inspection.Event,
        Entry = found.Inspection.Entry,
        Who = people.NameOf(found.Inspection.By.Person),
        Sentences = [.. found.Alert.Changes.Select(change => change.Sentence)],
    };

    private IEnumerable<Happening> Photographed(FoundInspection found) =>
        photographs.Of(found.Inspection.Number.ToString()).Select(photograph => new Happening
        {
            At = photograph.At,
            Seq = photograph.Seq,
            Title = $"Photograph for {found.Inspection.Number}",
            Href = photograph.IsStruck
            ? null
            : FormattableString.Invariant($"/inspections/{found.Inspection.Number}/photographs/{photograph.Seq}"),
            Event = found.Inspection.Event,
            Entry = found.Inspection.Entry,
            Who = people.NameOf(photograph.By),
            Sentences = photograph.IsStruck ? ["It was struck since; its hash stays in the register."] : [],
        });

    /// <summary>For every instrument that gave a reading: the last check before the reading, and the first after it, which confirms it or
    /// calls the ball back.</summary>
    private List<Happening> Checked(List<FoundInspection> found)
    {
        if (found.Count == 0)
        {
            return [];
        }

        using var connection = database.OpenForReading();
        return [.. Checks.Around(connection, [.. found.Select(inspection => inspection.Seq)]).Select(check => new Happening
        {
            At = check.Row.Instant,
            Seq = check.Row.Seq,
            Title = $"Check of {check.Row.Instrument}: {check.Row.Outcome}",
            Href = FormattableString.Invariant($"/instruments/{Uri.EscapeDataString(check.Row.Instrument)}/checks/{check.Row.Seq}"),
            Event = found[^1].Inspection.Event,
            Who = people.NameOf(PersonId.From(check.Row.ByPerson)),
            Sentences = check.Sentences,
        })];
    }

    private IEnumerable<string> Sentences(FoundInspection found)
    {
        var inspection = found.Inspection;
        if (inspection.Supersedes is { } earlier)
        {
            yield return $"It replaces {earlier}.";
        }

        if (found.SupersededBy is { } later)
        {
            yield return $"{later} replaced it.";
        }

        if (inspection.MeasuredAt is { } measured)
        {
            yield return FormattableString.Invariant(
                $"It was measured on {TimeZoneInfo.ConvertTime(measured, Zone(inspection.Event)):d MMMM yyyy, HH:mm}.");
        }

        var edition = editions.OfEdition(inspection.Verdict.Edition?.Id) ?? "no edition, since none was in force";
        yield return $"{GripWords.Of(inspection.Sheet.Grip)}; judged under {edition}.";
        var labels = SheetLines.Of(inspection.Sheet).ToLookup(line => line.Path, line => line.Label);
        foreach (var left in inspection.NotMeasured)
        {
            var label = labels[left.Path].FirstOrDefault() ?? SheetLines.LabelOf(left.Path);
            var reason = Remark(inspection.By.Person, left.ReasonHash) ?? "the reason was struck";
            yield return $"Not measured on purpose: {label}, {reason}.";
        }

        yield return $"Slip {inspection.Code.Grouped}: {Standing.InAList(found.SupersededBy, found.Ruling?.Decision)}.";
    }

    /// <summary>The verdict, and every rule whose result changed.</summary>
    private static IEnumerable<(string What, string? Then, string? Now)> Verdicts(Verdict then, Verdict now)
    {
        if (then.Outcome != now.Outcome)
        {
            yield return ("verdict", Explanation.OutcomeTitle(then.Outcome), Explanation.OutcomeTitle(now.Outcome));
        }

        var before = then.Findings.ToLookup(Key, finding => finding.Outcome);
        var after = now.Findings.ToLookup(Key, finding => finding.Outcome);
        foreach (var (rule, subject) in now.Findings.Concat(then.Findings).Select(Key).Distinct())
        {
            var (old, current) = (Word(before[(rule, subject)]), Word(after[(rule, subject)]));
            if (old != current)
            {
                var of = subject == "ball" ? "" : $", {subject}";
                yield return ($"rule on {Explanation.RuleTitle(rule).ToLowerInvariant()}{of}", old, current);
            }
        }

        static (string, string) Key(Finding finding) => (finding.Rule, finding.Subject);

        static string? Word(IEnumerable<Outcome> outcomes) => outcomes.ToList() switch
        {
            [] => null,
            var all when all.Contains(Outcome.Fail) => "not met",
            var all when all.Contains(Outcome.Hold) => "open",
            _ => "met",
        };
    }

    private static List<StoryReading> Readings(Inspection inspection)
    {
        var observed = inspection.Observations.ToLookup(observation => Whole(observation.Path));
        return [.. SheetLines.Of(inspection.Sheet)
            .Select(line => new StoryReading(line.Label, line.Text, [.. observed[line.Path].Select(InWords)]))];
    }

    // A single reading belongs to the line of its list: size.diameters[1] to size.diameters.
    private static string Whole(string path) => path.EndsWith(']') ? path[..path.LastIndexOf('[')] : path;

    private static string InWords(Observation observation) => string.Concat(
        observation.Instrument is { } instrument ? $"{instrument}: " : "",
        observation.Text,
        observation.Turned == true ? ", ball turned" : "",
        observation.Trial is { } trial ? FormattableString.Invariant($", trial {trial}") : "");

    private string? Remark(PersonId person, string hash)
    {
        using var connection = database.OpenForReading();
        return connection.QuerySingleOrDefault<string>(
            "SELECT text FROM remark WHERE person = @person AND hash = @hash", new { person = person.ToString(), hash });
    }

    private TimeZoneInfo Zone(string eventId) =>
        events.Find(eventId) is { } held ? TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone) : TimeZoneInfo.Utc;
}
