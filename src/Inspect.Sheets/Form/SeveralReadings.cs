using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Form;

/// <summary>A value worked out of several readings of the same thing: the ball turned on the scale, or read a second time.</summary>
/// <remarks>
/// In two positions the ball, turned by 180 degrees, shows the opposite sign and the scale's own error does not: half the difference is the
/// imbalance, half the sum the zero error. A quantity read twice has the mean; hardness and diameters are lists of readings of their own, which
/// the edition's statistic judges. The mean of two is common practice, no source.
/// </remarks>
/// <param name="Field">The field of the first reading.</param>
/// <param name="Value">What stands in the sheet: exact, in the notation of the first reading.</param>
/// <param name="Readings">As the instrument showed them.</param>
/// <param name="ZeroError">What the scale would show of a ball in perfect balance, where the ball was turned.</param>
/// <param name="Difference">By how much the second reading differs from the first, where there is one.</param>
public sealed record SeveralReadings(string Field, string Value, IReadOnlyList<SingleReading> Readings, string? ZeroError, string? Difference)
{
    /// <summary>Each reading as it was typed, by the ball's own sides, with its field.</summary>
    public IEnumerable<(string Text, string Name)> Typed => Readings.Select(reading =>
        reading.Turned == true ? (Opposite(reading.Text), $"{Field}.turned") : (reading.Text, reading.Trial > 1 ? $"{Field}.again" : Field));

    /// <summary>Works the value out, or says in one sentence why it cannot be exact.</summary>
    /// <param name="field">The field of the first reading.</param>
    /// <param name="first">As the ball lies.</param>
    /// <param name="turned">Turned by 180 degrees, by the ball's own sides: the heavier side of the ball is the same one in both positions.</param>
    /// <param name="again">The second reading, as the ball lies.</param>
    public static (SeveralReadings? Worked, string? Refusal) Of(string field, Reading first, Reading? turned, Reading? again)
    {
        var readings = new List<SingleReading> { new(first.Text, turned is null ? null : false, 1) };
        var (value, zero, difference) = (first.Value, (decimal?)null, (decimal?)null);
        if (turned is not null)
        {
            readings.Add(new SingleReading(Opposite(turned.Text), true, 1));
            (value, zero) = ((first.Value + turned.Value) / 2, (first.Value - turned.Value) / 2);
        }

        if (again is not null)
        {
            readings.Add(new SingleReading(again.Text, null, 2));
            (value, difference) = ((value + again.Value) / 2, Math.Abs(value - again.Value));
        }

        var text = Written.As(value, first.Notation);
        return ReadingParser.Parse(text, first.Quantity).Reading?.Value == value
            ? (new SeveralReadings(field, text, readings, Said(zero, first), Said(difference, first)), null)
            : (null, $"\"{(again ?? turned)!.Text}\" and \"{first.Text}\" have no exact value between them; write both in the same unit.");
    }

    /// <summary>The same from what was recorded; none for a reading taken once, and none where a program sent readings of another kind.</summary>
    /// <param name="path">Where the value stands in the sheet.</param>
    /// <param name="taken">The readings that were recorded of it.</param>
    /// <param name="sheet">The sheet.</param>
    public static SeveralReadings? Of(string path, IReadOnlyList<SingleReading> taken, Sheet sheet)
    {
        if (taken.Count < 2 || Catalogue.Measured(sheet, path) is not { } said)
        {
            return null;
        }

        var (first, turned, again) = (Found(1, isTurned: false), Found(1, isTurned: true), Found(2, isTurned: false));
        return first is null || (turned is null && again is null) ? null : Of(FormFields.FieldOf(path, sheet), first, turned, again).Worked is { } worked && worked.Value == said.Text ? worked : null;

        Reading? Found(int trial, bool isTurned) =>
            taken.FirstOrDefault(one => one.Trial == trial && (one.Turned == true) == isTurned) is { } one
                ? ReadingParser.Parse(isTurned ? Opposite(one.Text) : one.Text, said.Quantity).Reading : null;
    }

    /// <summary>A reading as the scale shows it once the ball is turned: its sign is the other one.</summary>
    private static string Opposite(string text) => text.StartsWith('-') ? text[1..] : $"-{text}";

    private static string? Said(decimal? difference, Reading first) => difference is { } known ? Written.Difference(Math.Abs(known), first.Notation) : null;
}

/// <summary>One reading as the instrument showed it.</summary>
/// <param name="Text">With its unit, and its sign where it has one.</param>
/// <param name="Turned">Whether the ball was turned; null where it is read in one position only.</param>
/// <param name="Trial">1 for the first reading, 2 for the second.</param>
public sealed record SingleReading(string Text, bool? Turned, int Trial);
