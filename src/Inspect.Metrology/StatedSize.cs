using Inspect.Sheets.Readings;

namespace Inspect.Metrology;

/// <summary>The size of a step or of a deviation. A size of temperature has no offset: 0.5 C is 0.9 F, not 32.9 F.</summary>
public static class StatedSize
{
    /// <summary>Reads a size above zero, or says in one sentence what is wrong with it.</summary>
    /// <param name="text">As typed.</param>
    /// <param name="quantity">The quantity that it is a size of.</param>
    /// <param name="assumed">The unit of a number without one.</param>
    public static (Reading? Size, string? Refusal) Parse(string text, Quantity quantity, Unit? assumed)
    {
        var result = ReadingParser.Parse(text, quantity, assumed);
        if (result.Reading is not { } reading)
        {
            return (null, result.Refusal);
        }

        var size = reading.Notation.Unit == Unit.Celsius ? reading with { Value = reading.Value - 32m } : reading;
        return size.Value > 0 ? (size, null) : (null, $"\"{text.Trim()}\" is not above zero; leave it out when it is not known.");
    }

    /// <summary>A size in the base unit of its quantity, as text in another of its units, to five significant digits.</summary>
    public static string In(decimal size, Unit unit)
    {
        var inUnit = size / Units.Factor(unit);
        var digits = inUnit == 0 ? 0 : 4 - (int)Math.Floor(Math.Log10(Seam.ToDouble(Math.Abs(inUnit))));
        return Exactly(Math.Round(inUnit, Math.Clamp(digits, 0, 20), MidpointRounding.AwayFromZero) * Units.Factor(unit), unit);
    }

    /// <summary>The same with all its digits.</summary>
    internal static string Exactly(decimal size, Unit unit) => Written.Difference(size, new Notation(unit, false)).Trim();
}
