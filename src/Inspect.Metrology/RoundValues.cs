using Inspect.Sheets.Readings;

namespace Inspect.Metrology;

/// <summary>The coarser values that readings gather on when somebody rounds by eye what a display or a scale of lines shows.</summary>
/// <remarks>
/// A display in tenths is rounded to halves and wholes, one in quarters to wholes, a scale of sixty-fourths to sixteenths. Of readings that
/// nobody rounds, a known part falls on such a value by chance. That the last digit of unrounded readings is evenly spread is common
/// practice in reviewing data, no source; it is not true where balls are made to round sizes.
/// </remarks>
public static class RoundValues
{
    private const int Fractions = 4;
    private const int Fives = 5;
    private const int Tens = 10;

    /// <summary>The coarse step for a display's step.</summary>
    /// <param name="step">The smallest step shown, above zero.</param>
    /// <returns>The coarse step in the base unit, and the number of fine steps in it: by chance, one
    /// reading in that many falls on it.</returns>
    public static (decimal Coarse, int OneIn) Of(Reading step)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(step.Value);
        var leading = Leading(step.Value / Units.Factor(step.Notation.Unit));
        var times = step.Notation.Fraction || leading == 2.5m ? Fractions : (int)leading == 5 ? Tens : Fives;
        return (step.Value * times, times);
    }

    /// <summary>Whether a value is on a coarse step. The test is exact, because both numbers are.</summary>
    public static bool IsOn(decimal value, decimal coarse) => value % coarse == 0;

    // The number scaled by a power of ten to lie from 1 up to 10.
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
