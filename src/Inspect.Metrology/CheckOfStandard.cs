using Inspect.Sheets.Readings;

namespace Inspect.Metrology;

/// <summary>The check of any other instrument against a block, a ring, a hardness block or a reference of known value.</summary>
/// <remarks>
/// The tolerance is the limit of error on the instrument's certificate; for a durometer, the one on the block's certificate. As with check
/// weights, common practice asks for a standard whose error is at most a third of the tolerance that it tests.
/// </remarks>
public static class CheckOfStandard
{
    /// <summary>Judges a check.</summary>
    /// <param name="tolerance">How far the instrument may be off, in the base unit of its quantity.</param>
    /// <param name="points">The standards that were measured with it.</param>
    /// <param name="unit">The unit used in sentences.</param>
    public static CheckOutcome Judge(decimal tolerance, IEnumerable<CheckedPoint> points, Unit unit)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(tolerance);
        return CheckOutcome.Of(points.Select(point => (point, tolerance)), unit);
    }
}
