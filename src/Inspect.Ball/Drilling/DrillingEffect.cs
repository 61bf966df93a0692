namespace Inspect.Ball;

/// <summary>The effects of a change of a ball's holes, as ranges over plausible insides: what else a remedy
/// changes, known before anyone drills.</summary>
/// <param name="WeightOz">Change of the ball's weight.</param>
/// <param name="X">Change of the reading along +x, in ounces of the given scale.</param>
/// <param name="Y">Change of the reading along +y.</param>
/// <param name="Z">Change of the reading along +z.</param>
/// <param name="LowRgIn">Change of the lowest RG; within a factor of two unless the inside is known.</param>
/// <param name="TotalDifferentialIn">Change of the total differential.</param>
/// <param name="ThinnestWallIn">The thinnest wall between holes afterwards; null with fewer than two holes.</param>
/// <param name="Basis">What the ranges are based on.</param>
public sealed record DrillingEffect(
    Estimate WeightOz,
    Estimate X,
    Estimate Y,
    Estimate Z,
    Estimate LowRgIn,
    Estimate TotalDifferentialIn,
    double? ThinnestWallIn,
    EstimateBasis Basis)
{
    /// <summary>Compares the ball with its holes before and after the change.</summary>
    /// <exception cref="DescriptionException">A hole is not inside the ball.</exception>
    public static DrillingEffect Of(
        BallDescription ball, IReadOnlyList<DrilledHole> before, IReadOnlyList<DrilledHole> after, ScaleConstant scale) =>
        new DrilledBall(ball, before, scale).Changed(after);
}
