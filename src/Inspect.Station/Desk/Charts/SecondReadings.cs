using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Readings;

namespace Inspect.Station.Desk.Charts;

/// <summary>How often a second look gave another result: a ball inspected again, or a reading taken twice at one inspection.</summary>
/// <param name="Again">Balls inspected again, by their first and second outcome.</param>
/// <param name="Trials">Readings with a second trial, by whether the first and the second were inside the limit.</param>
public sealed record SecondReadings(
    IReadOnlyDictionary<(Outcome Before, Outcome After), int> Again, IReadOnlyDictionary<(bool First, bool Second), int> Trials)
{
    public int InspectedAgain => Again.Values.Sum();

    public int OutcomesFlipped => Again.Where(each => each.Key.Before != each.Key.After).Sum(each => each.Value);

    public int ReadTwice => Trials.Values.Sum();

    public int TrialsFlipped => Trials.Where(each => each.Key.First != each.Key.Second).Sum(each => each.Value);

    /// <summary>Both as shares, without those that have no case.</summary>
    public IReadOnlyList<FailureShare> Shares =>
    [
        .. new[]
        {
            new FailureShare("balls inspected again", OutcomesFlipped, InspectedAgain),
            new FailureShare("readings taken twice", TrialsFlipped, ReadTwice),
        }
            .Where(share => share.Of > 0),
    ];

    /// <summary>Each pair of a first and a second result, with its count.</summary>
    public IEnumerable<(string First, string Then, int Count)> Rows =>
        Again.OrderBy(each => each.Key).Select(each => ($"Ball: {Word(each.Key.Before)}", Word(each.Key.After), each.Value))
            .Concat(Trials.OrderBy(each => each.Key)
                .Select(each => ($"Reading: {Side(each.Key.First)}", Side(each.Key.Second), each.Value)));

    public static SecondReadings Of(IReadOnlyList<CountedInspection> inspections) => new(
        Counts(inspections.Where(one => one.Before is not null).Select(one => (one.Before!.Value, one.Outcome))),
        Counts(inspections.SelectMany(TrialsOf)));

    private static string Word(Outcome outcome) => Explanation.OutcomeTitle(outcome).ToLowerInvariant();

    private static string Side(bool isInside) => isInside ? "inside the limit" : "outside the limit";

    private static Dictionary<T, int> Counts<T>(IEnumerable<T> each)
        where T : notnull => each.GroupBy(one => one).ToDictionary(group => group.Key, group => group.Count());

    // The first and the second trial of one reading in one position of the ball, each compared with the limit of the rule alone.
    private static IEnumerable<(bool First, bool Second)> TrialsOf(CountedInspection inspection) =>
        (inspection.Observations.Any(observation => observation.Trial == 2) ? inspection.Observations : [])
            .Where(observation => observation.Trial is 1 or 2)
            .GroupBy(observation => (observation.Path, observation.Turned))
            .Select(group => (
                group.Key.Path,
                First: group.FirstOrDefault(each => each.Trial == 1),
                Second: group.FirstOrDefault(each => each.Trial == 2)))
            .Where(pair => pair is { First: not null, Second: not null })
            .SelectMany(pair => LimitsAt(inspection, pair.Path)
                .Select(limit => (First: Allows(limit, pair.First!), Second: Allows(limit, pair.Second!))))
            .Where(pair => pair is { First: not null, Second: not null })
            .Select(pair => (pair.First!.Value, pair.Second!.Value));

    private static IEnumerable<(Limit Limit, Quantity Quantity)> LimitsAt(CountedInspection inspection, string path)
    {
        if (MeasuredMember.Of(path) is not { } member)
        {
            yield break;
        }

        var quantity = MeasuredMember.QuantityOf(member);
        foreach (var finding in inspection.Findings)
        {
            if (finding.Path == path && finding.Limit?.Measured is { } limit)
            {
                yield return (limit, quantity);
            }
        }
    }

    private static bool? Allows((Limit Limit, Quantity Quantity) at, CountedObservation observation) =>
        ReadingParser.Parse(observation.Text, at.Quantity).Reading is { } reading
            ? at.Limit.Allows(at.Quantity == Quantity.Imbalance ? Math.Abs(reading.Value) : reading.Value)
            : null;
}
