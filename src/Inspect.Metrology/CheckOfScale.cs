using Inspect.Sheets.Readings;

namespace Inspect.Metrology;

/// <summary>The check of a scale at the start of a session: empty, and with check weights.</summary>
/// <remarks>
/// The tolerances are those of <see cref="ScaleTolerance"/>. A check weight's own error may be at most a third of the tolerance that it
/// tests (OIML R 76-1, 3.7.1, from memory).
/// </remarks>
public static class CheckOfScale
{
    /// <summary>Judges a check.</summary>
    /// <param name="division">One division of the display, in grams.</param>
    /// <param name="points">The empty scale (worth zero) and the weights, in grams.</param>
    /// <param name="unit">The unit used in sentences.</param>
    public static CheckOutcome Judge(decimal division, IEnumerable<CheckedPoint> points, Unit unit) =>
        CheckOutcome.Of(points.Select(point => (point, ScaleTolerance.At(point.Nominal, division))), unit);
}
