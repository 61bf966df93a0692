using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Judging;

/// <summary>What is known of the uncertainty of one quantity's readings with the event's instrument and inspectors.</summary>
/// <param name="Quantity">The quantity it belongs to.</param>
/// <param name="Resolution">The step of the display.</param>
/// <param name="Repeatability">The standard deviation of one inspector's readings of one ball.</param>
/// <param name="BetweenOperators">The standard deviation between inspectors.</param>
/// <param name="Calibration">The standard uncertainty of the instrument's calibration.</param>
/// <remarks>
/// Combined as in the GUM (JCGM 100:2008): a step d counts as d/(2 sqrt 3), the parts as the root of the sum of their squares. An
/// average of n readings has the repeatability of one divided by sqrt n; a spread is the difference of two readings of one
/// inspector with one instrument, so its variance is twice that of a reading; neither inspectors nor the
/// calibration differ in it.
/// </remarks>
public sealed record Uncertainty(RuleQuantity Quantity, Reading? Resolution, Reading? Repeatability, Reading? BetweenOperators,
    Reading? Calibration = null)
{
    /// <summary>The standard uncertainty u of the figure that a limit is compared with, in the base unit of the quantity.</summary>
    /// <param name="statistic">How the figure is formed.</param>
    /// <param name="readings">How many readings it is formed of.</param>
    public decimal Standard(Statistic statistic = Statistic.Single, int readings = 1)
    {
        var (step, repeat) = (Resolution?.Value ?? 0, Repeatability?.Value ?? 0);
        var (between, calibration) = (BetweenOperators?.Value ?? 0, Calibration?.Value ?? 0);
        var variance = statistic == Statistic.Spread
            ? 2 * ((step * step / 12) + (repeat * repeat))
            : (step * step / 12) + (repeat * repeat / readings) + (between * between) + (calibration * calibration);
        return Seam.ToDecimal(Math.Sqrt(Seam.ToDouble(variance)));
    }
}
