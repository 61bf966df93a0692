namespace Inspect.Metrology;

/// <summary>How far a class III scale in use may be off, by the load in divisions of its display.</summary>
/// <remarks>
/// NIST Handbook 44, 2.20, maintenance tolerances: 1 division up to 500 divisions, 2 up to 2,000, 3 up to 4,000, 5 above. OIML R 76 in
/// service (twice its initial 0.5, 1 and 1.5 divisions) is the same up to 4,000 divisions. On a display of tenths of an ounce that is
/// 25 lb.
/// </remarks>
public static class ScaleTolerance
{
    private static readonly (decimal UpTo, decimal Divisions)[] Steps = [(500, 1), (2000, 2), (4000, 3)];
    private const decimal Above = 5;

    /// <summary>How far the display may be off, either way, in the unit of the division.</summary>
    /// <param name="load">The load on the scale, zero or more.</param>
    /// <param name="division">One division of the display, above zero, in the same unit.</param>
    public static decimal At(decimal load, decimal division)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(division);
        ArgumentOutOfRangeException.ThrowIfNegative(load);
        foreach (var (upTo, divisions) in Steps)
        {
            if (load <= upTo * division)
            {
                return divisions * division;
            }
        }

        return Above * division;
    }
}
