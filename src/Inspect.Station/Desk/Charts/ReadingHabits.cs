using Inspect.Metrology;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Access;
using Inspect.Station.Instruments;
using Inspect.Station.Record;

namespace Inspect.Station.Desk.Charts;

/// <summary>One inspector's readings of one kind, counted.</summary>
/// <param name="Inspector">The inspector.</param>
/// <param name="Group">What was read, in words.</param>
/// <param name="Round">How many are on coarser values than the display shows.</param>
/// <param name="JustInside">How many are just inside a limit, and out of how many.</param>
public sealed record ReadingHabit(PersonId Inspector, string Group, CountedShare Round, JustInside JustInside);

/// <summary>An inspector's readings just inside a limit.</summary>
/// <param name="Against">What they are counted against.</param>
/// <param name="Share">How many are just inside, out of those counted.</param>
public sealed record JustInside(CountedAgainst Against, CountedShare Share)
{
    /// <summary>Whether there are enough readings to say anything.</summary>
    public bool Says => Share is { Of: >= CountedShare.Fewest, Expected: not null };
}

/// <summary>What readings just inside a limit are counted against.</summary>
public enum CountedAgainst
{
    /// <summary>The readings just outside it, compared with the share of the other inspectors.</summary>
    OtherInspectors,

    /// <summary>The readings in the next band inside the limit: if readings are even or thin out towards the limit, at most half
    /// are in the nearer band.</summary>
    TheNextBand,
}

/// <summary>Whether an event's readings heap on round values, or just inside a limit.</summary>
/// <remarks>
/// The step of the display is that of the instrument a reading names. Without one it is the coarsest step that fits all readings at this
/// event, because a coarse display and an eye that rounds look alike. Just inside a limit are the three values of the display next to it.
/// Balls are made to pass, so the readings just inside are not compared with those just outside, but with the other inspectors; when these
/// have too few close readings, with the next three values further inside.
/// </remarks>
public static class ReadingHabits
{
    /// <summary>How many values of the display count as close to a limit, on either side.</summary>
    public const int CloseSteps = 3;

    // When everybody read the same few values, they say little about the display.
    private const int FewestValues = 5;

    // A display counts in ones, halves, quarters, fifths, and tenths of these.
    private static readonly decimal[] DecimalSteps = [1m, .5m, .25m, .2m];

    // The decimals that were typed.
    private static readonly decimal[] LastDigit = [1m];

    private static readonly IReadOnlyList<(string Title, Func<Sheet, IEnumerable<(string Path, Reading Reading)>> Readings)> Groups =
    [
        .. Catalogue.Terms.Where(term => term.Group is not null).GroupBy(term => term.Group!).Select(group => (
            Words.Capital(group.Key),
            (Func<Sheet, IEnumerable<(string, Reading)>>)(sheet => group.SelectMany(term => Catalogue.Of(term.Quantity).Readings(sheet))))),
    ];

    /// <summary>Every inspector's habits, notable ones first.</summary>
    public static IReadOnlyList<ReadingHabit> Of(IReadOnlyList<Inspection> inspections, IReadOnlyList<Instrument> instruments) =>
        [.. Groups.SelectMany(group => OfGroup(group.Title, group.Readings, inspections, instruments))
            .OrderByDescending(habit => habit.Round.IsMore || habit.JustInside.Share.IsMore)];

    private static IEnumerable<ReadingHabit> OfGroup(
        string title, Func<Sheet, IEnumerable<(string Path, Reading Reading)>> readings, IReadOnlyList<Inspection> inspections,
        IReadOnlyList<Instrument> instruments)
    {
        var all = inspections.SelectMany(inspection => readings(inspection.Sheet)
            .Select(one => (Inspection: inspection, one.Path, one.Reading, Step: StepOf(inspection, one.Path, instruments)))).ToList();
        if (all.Count == 0)
        {
            yield break;
        }

        var read = all.Select(one => one.Reading).ToList();
        var common = CommonStep(read, DecimalSteps);
        var near = read.DistinctBy(reading => reading.Value).Count() < FewestValues ? CommonStep(read, LastDigit) : common;
        var counted = all.Select(one =>
        {
            var step = one.Step ?? common;
            var (coarse, oneIn) = RoundValues.Of(step);
            var inside = StepsInside(one.Inspection, one.Path, one.Step ?? near);
            return new Counted(one.Inspection.By.Person, RoundValues.IsOn(one.Reading.Value, coarse), 1.0 / oneIn, inside);
        }).ToList();
        foreach (var own in counted.GroupBy(one => one.Person))
        {
            yield return new ReadingHabit(
                own.Key,
                title,
                new CountedShare(own.Count(one => one.IsRound), own.Count(), own.Average(one => one.Chance)),
                Near([.. own], [.. counted.Where(one => one.Person != own.Key && one.IsClose)]));
        }
    }

    private static JustInside Near(List<Counted> own, List<Counted> othersClose)
    {
        var inside = own.Count(one => one.IsJustInside);
        return othersClose.Count >= CountedShare.Fewest
            ? new JustInside(
                CountedAgainst.OtherInspectors,
                new CountedShare(
                    inside, own.Count(one => one.IsClose), othersClose.Count(one => one.IsJustInside) / (double)othersClose.Count))
            : new JustInside(CountedAgainst.TheNextBand, new CountedShare(inside, inside + own.Count(one => one.IsNext), 0.5));
    }

    private static Reading? StepOf(Inspection inspection, string path, IReadOnlyList<Instrument> instruments)
    {
        var name = inspection.Observations.FirstOrDefault(observation => observation.Path == path)?.Instrument;
        return name is null ? null : instruments.FirstOrDefault(one => one.Name == name)?.Resolution;
    }

    /// <summary>The coarsest step that fits all readings: first for each unit they were typed in, then the finest of these.</summary>
    private static Reading CommonStep(List<Reading> readings, decimal[] decimalSteps) => readings
        .GroupBy(reading =>
            (Unit: reading.Notation.Unit == Unit.PoundOunce ? Unit.Ounce : reading.Notation.Unit, reading.Notation.Fraction))
        .Select(alike =>
        {
            var values = alike.Select(reading => reading.Value / Units.Factor(alike.Key.Unit)).Distinct().ToList();
            var step = Steps(alike.Key.Fraction ? LastDigit : decimalSteps, alike.Key.Fraction ? 2 : 10)
                .First(step => step < .000001m || values.TrueForAll(value => value % step == 0));
            return new Reading(
                "", alike.First().Quantity, step * Units.Factor(alike.Key.Unit), new Notation(alike.Key.Unit, alike.Key.Fraction));
        })
        .MinBy(step => step.Value)!;

    private static IEnumerable<decimal> Steps(decimal[] steps, int apart)
    {
        for (var unit = 1m; ; unit /= apart)
        {
            foreach (var step in steps)
            {
                yield return step * unit;
            }
        }
    }

    /// <summary>How many steps a reading is inside the nearest limit, negative outside; null when no limit applies.</summary>
    private static decimal? StepsInside(Inspection inspection, string path, Reading step)
    {
        var margins = inspection.Verdict.Findings.Where(finding => finding.Path == path)
            .Select(finding => finding.Margin?.Measure).OfType<decimal>().ToList();
        return margins.Count == 0 ? null : margins.Min() / step.Value;
    }

    private sealed record Counted(PersonId Person, bool IsRound, double Chance, decimal? StepsInside)
    {
        // A reading on the limit is inside, so that each band has the same number of display values.
        public bool IsJustInside => StepsInside is >= 0 and < CloseSteps;

        public bool IsNext => StepsInside is >= CloseSteps and < 2 * CloseSteps;

        public bool IsClose => StepsInside is >= -CloseSteps and < CloseSteps;
    }
}
