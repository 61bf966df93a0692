using System.Globalization;
using Inspect.Rules.Metrology;
using Inspect.Rules.Readings;
using Inspect.Rules.Sheets;
using Inspect.Station.Access;
using Inspect.Station.Record;

namespace Inspect.Station.Instruments;

/// <summary>One inspector's readings of one kind, counted.</summary>
/// <param name="Inspector">Whose.</param>
/// <param name="Group">What was read, in words.</param>
/// <param name="Round">How many fall on coarser values than the display shows.</param>
/// <param name="JustInside">How many of those close to a limit lie inside it; null without any.</param>
public sealed record ReadingHabit(PersonId Inspector, string Group, CountedShare Round, CountedShare? JustInside);

/// <summary>Whether an event's readings heap on round values, or just inside a limit.</summary>
/// <remarks>
/// The step of the display is that of the instrument a reading names; without one it is the finest step that anybody read at this event. Close to
/// a limit is within three such steps. What lies inside there is compared with the other inspectors, because balls are made to pass.
/// </remarks>
public static class ReadingHabits
{
    /// <summary>How many steps of the display are close to a limit.</summary>
    public const int CloseSteps = 3;

    private static readonly (string Title, Func<Sheet, IEnumerable<(string Path, Reading? Reading)>> Readings)[] Groups =
    [
        ("Gross weight", sheet => [("weights.gross", sheet.Weights?.Gross)]),
        ("Imbalances", sheet =>
        [
            ("weights.topBottom", sheet.Weights?.TopBottom), ("weights.leftRight", sheet.Weights?.LeftRight), ("weights.fingerThumb", sheet.Weights?.FingerThumb),
        ]),
        ("Hole diameters", sheet => (sheet.Holes ?? []).Select((hole, i) => (FormattableString.Invariant($"holes[{i}].diameter"), hole.Diameter))),
        ("Hole depths", sheet => (sheet.Holes ?? []).Select((hole, i) => (FormattableString.Invariant($"holes[{i}].depth"), hole.Depth))),
        ("Ball diameter", sheet => (sheet.Size?.Diameters ?? []).Select((reading, i) => (FormattableString.Invariant($"size.diameters[{i}]"), (Reading?)reading))),
        ("Circumference", sheet => [("size.circumference", sheet.Size?.Circumference)]),
        ("Hardness", sheet => (sheet.Hardness?.Readings ?? []).Select((reading, i) => (FormattableString.Invariant($"hardness.readings[{i}]"), (Reading?)reading))),
    ];

    /// <summary>Every inspector's habits, what is notable first.</summary>
    public static IReadOnlyList<ReadingHabit> Of(IReadOnlyList<Inspection> inspections, IReadOnlyList<Instrument> instruments) =>
        [.. Groups.SelectMany(group => OfGroup(group.Title, group.Readings, inspections, instruments))
            .OrderByDescending(habit => habit.Round.IsMore || habit.JustInside is { IsMore: true })];

    private static IEnumerable<ReadingHabit> OfGroup(
        string title, Func<Sheet, IEnumerable<(string Path, Reading? Reading)>> readings, IReadOnlyList<Inspection> inspections, IReadOnlyList<Instrument> instruments)
    {
        var all = inspections.SelectMany(inspection => readings(inspection.Sheet)
            .Where(one => one.Reading is not null)
            .Select(one => (Inspection: inspection, one.Path, Reading: one.Reading!, Step: StepOf(inspection, one.Path, instruments)))).ToList();
        if (all.Count == 0)
        {
            yield break;
        }

        var finest = all.Select(one => TypedStep(one.Reading)).MinBy(step => step.Value)!;
        var counted = all.Select(one =>
        {
            var step = one.Step ?? finest;
            var (coarse, oneIn) = RoundValues.Of(step);
            return (one.Inspection.By.Person, IsRound: RoundValues.IsOn(one.Reading.Value, coarse), Chance: 1.0 / oneIn, Inside: Inside(one.Inspection, one.Path, one.Reading, step));
        }).ToList();
        foreach (var own in counted.GroupBy(one => one.Person))
        {
            var (close, others) = (own.Where(one => one.Inside is not null).ToList(), counted.Where(one => one.Person != own.Key && one.Inside is not null).ToList());
            yield return new ReadingHabit(
                own.Key,
                title,
                new CountedShare(own.Count(one => one.IsRound), own.Count(), own.Average(one => one.Chance)),
                close.Count == 0 ? null : new CountedShare(
                    close.Count(one => one.Inside == true), close.Count, others.Count == 0 ? null : others.Count(one => one.Inside == true) / (double)others.Count));
        }
    }

    private static Reading? StepOf(Inspection inspection, string path, IReadOnlyList<Instrument> instruments)
    {
        var name = inspection.Observations.FirstOrDefault(observation => observation.Path == path)?.Instrument;
        return name is null ? null : instruments.FirstOrDefault(one => one.Name == name)?.Resolution;
    }

    /// <summary>The step that a reading was evidently read to: its last decimal, or its smallest fraction.</summary>
    private static Reading TypedStep(Reading reading)
    {
        var unit = reading.Notation.Unit == Unit.PoundOunce ? Unit.Ounce : reading.Notation.Unit;
        var inUnit = Math.Abs(reading.Value) / Units.Factor(unit);
        var step = 1m;
        for (var i = 0; i < 7 && inUnit % step != 0; i++)
        {
            step /= reading.Notation.Fraction ? 2 : 10;
        }

        return new Reading("", reading.Quantity, step * Units.Factor(unit), new Notation(unit, reading.Notation.Fraction));
    }

    /// <summary>Whether a reading close to a limit lies inside it; null where it is not close to any.</summary>
    private static bool? Inside(Inspection inspection, string path, Reading reading, Reading step)
    {
        var margins = inspection.Verdict.Findings.Where(finding => finding.Path == path && finding.Margin is not null)
            .Select(finding => Margin(finding.Margin!, reading.Quantity)).OfType<decimal>().Where(margin => Math.Abs(margin) <= CloseSteps * step.Value).ToList();
        return margins.Count == 0 ? null : margins.Min() >= 0;
    }

    private static decimal? Margin(string text, Quantity quantity)
    {
        var isNegative = text.StartsWith('-');
        var size = isNegative ? text[1..] : text;
        var margin = quantity == Quantity.Hardness
            ? decimal.TryParse(size, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var points) ? points : null
            : ((Quantity[])[quantity == Quantity.Length ? Quantity.SignedLength : quantity, Quantity.Imbalance])
                .Select(one => ReadingParser.Parse(size, one).Reading?.Value).FirstOrDefault(value => value is not null);
        return isNegative ? -margin : margin;
    }
}
