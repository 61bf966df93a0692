using Inspect.Sheets.Readings;

namespace Inspect.Metrology;

/// <summary>The coarser values that readings heap on when an eye rounds what a display or a rule shows.</summary>
/// <remarks>
/// A display in tenths has halves and wholes to round to, one in quarters has wholes, a rule in sixty-fourths has sixteenths: of readings that nobody rounds, one in so
/// many falls on such a value by chance. That the last digit of honest readings is spread evenly is common practice in reviewing data, no
/// source; it fails where balls are made to round sizes.
/// </remarks>
public static class RoundValues
{
    private const int Fractions = 4;
    private const int Fives = 5;
    private const int Tens = 10;

    /// <summary>The coarse step for a display's step.</summary>
    /// <param name="step">The smallest step shown, above zero.</param>
    /// <returns>The coarse step in the base unit, and the number of fine steps in it: one reading in so many falls on it by chance.</returns>
    public static (decimal Coarse, int OneIn) Of(Reading step)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(step.Value);
        var leading = Leading(step.Value / Units.Factor(step.Notation.Unit));
        var times = step.Notation.Fraction || leading == 2.5m ? Fractions : (int)leading == 5 ? Tens : Fives;
        return (step.Value * times, times);
    }

    /// <summary>Whether a value lies on a coarse step; exact, since both are.</summary>
    public static bool IsOn(decimal value, decimal coarse) => value % coarse == 0;

    // The number between 1 and 10 that it is, but for a power of ten.
    private static decimal Leading(decimal number)
    {
        while (number >= 10)
        {
            number /= 10;
        }

        while (number < 1)
        {
            number *= 10;
        }

        return number;
    }
}
