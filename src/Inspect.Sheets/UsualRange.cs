using Inspect.Sheets.Readings;

namespace Inspect.Sheets;

/// <summary>What a reading of a bowling ball can believably be. A reading outside was probably mistyped: it is asked about before it is
/// judged. The ranges are wider than any limit of any edition; common practice, no source.</summary>
/// <param name="Least">The least, in the unit.</param>
/// <param name="Most">The most, in the unit.</param>
/// <param name="Unit">The unit of both.</param>
public sealed record UsualRange(decimal Least, decimal Most, Unit Unit)
{
    /// <summary>Whether a reading is in the range; the sign of a side does not count.</summary>
    public bool Holds(Reading reading) => Math.Abs(reading.Value) is var size
        && size >= Least * Units.Factor(Unit) && size <= Most * Units.Factor(Unit);

    /// <summary>The range in words, as in <c>8 to 9 in</c>.</summary>
    public override string ToString() => FormattableString.Invariant(
        $"{(Least == 0 ? "at most " : $"{Least} to ")}{Most} {(Unit == Unit.ShoreD ? "D" : Units.Mark(Unit))}");
}
