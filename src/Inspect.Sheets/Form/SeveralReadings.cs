using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Form;

/// <summary>A value computed from several readings of one quantity: with the ball turned on the scale, or read a second time.</summary>
/// <remarks>
/// When the ball is turned by 180 degrees, its imbalance changes sign and the scale's own error does not. Half the difference of the two
/// readings is the imbalance, half the sum the zero error. A quantity read twice gets the mean of two (common practice, no source).
/// Hardness and diameters are lists of single readings instead, which the edition's statistic judges.
/// </remarks>
/// <param name="Field">The field of the first reading.</param>
/// <param name="Value">The value in the sheet: exact, in the notation of the first reading.</param>
/// <param name="Readings">As the instrument showed them.</param>
/// <param name="ZeroError">What the scale would show of a ball in perfect balance; null when the ball was not turned.</param>
/// <param name="Difference">By how much the second reading differs from the first; null when there is no second.</param>
public sealed record SeveralReadings(
    string Field, string Value, IReadOnlyList<SingleReading> Readings, string? ZeroError, string? Difference)
{
    /// <summary>Each reading as it was typed, with the ball's own sides, and its field.</summary>
    public IEnumerable<(string Text, string Name)> Typed => Readings.Select(reading =>
        reading.Turned == true ? (Opposite(reading.Text), $"{Field}.turned")
            : (reading.Text, reading.Trial > 1 ? $"{Field}.again" : Field));

    /// <summary>Computes the value, or says in one sentence why it cannot be exact.</summary>
    /// <param name="field">The field of the first reading.</param>
    /// <param name="first">The ball as it was put on the scale.</param>
    /// <param name="turned">The ball turned by 180 degrees, with the ball's own sides: the same
    /// side is the heavier one in both positions.</param>
    /// <param name="again">The second reading, with the ball as it was put on the scale.</param>
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
            : (null, $"\"{(again ?? turned)!.Text}\" and \"{first.Text}\" have no exact mean; enter both in the same unit.");
    }

    /// <summary>The same from recorded readings; null when there is only one, or when a program sent readings of another kind.</summary>
    /// <param name="path">The path of the value in the sheet.</param>
    /// <param name="taken">The recorded readings of it.</param>
    /// <param name="sheet">The sheet.</param>
    public static SeveralReadings? Of(string path, IReadOnlyList<SingleReading> taken, Sheet sheet)
    {
        if (taken.Count < 2 || Catalogue.Measured(sheet, path) is not { } said)
        {
            return null;
        }

        var (first, turned, again) = (Found(1, isTurned: false), Found(1, isTurned: true), Found(2, isTurned: false));
        if (first is null || (turned is null && again is null))
        {
            return null;
        }

        return Of(FormFields.FieldOf(path, sheet), first, turned, again).Worked is { } worked && worked.Value == said.Text ? worked : null;

        Reading? Found(int trial, bool isTurned) =>
            taken.FirstOrDefault(one => one.Trial == trial && (one.Turned == true) == isTurned) is { } one
                ? ReadingParser.Parse(isTurned ? Opposite(one.Text) : one.Text, said.Quantity).Reading : null;
    }

    /// <summary>A reading as the scale shows it after the ball is turned: with the other sign.</summary>
    private static string Opposite(string text) => text.StartsWith('-') ? text[1..] : $"-{text}";

    private static string? Said(decimal? difference, Reading first) =>
        difference is { } known ? Written.Difference(Math.Abs(known), first.Notation) : null;
}

/// <summary>One reading as the instrument showed it.</summary>
/// <param name="Text">With its unit, and its sign if it has one.</param>
/// <param name="Turned">Whether the ball was turned; null when it is read in one position only.</param>
/// <param name="Trial">1 for the first reading, 2 for the second.</param>
public sealed record SingleReading(string Text, bool? Turned, int Trial);
