namespace Inspect.Ball;

/// <summary>The effects of a change of a ball's holes, as ranges over plausible insides: what else a remedy
/// changes, known before anyone drills.</summary>
/// <param name="WeightOz">Change of the ball's weight.</param>
/// <param name="X">Change of the reading along +x, in ounces of the given scale.</param>
/// <param name="Y">Change of the reading along +y.</param>
/// <param name="Z">Change of the reading along +z.</param>
/// <param name="LowRgIn">Change of the lowest RG; within a factor of two unless the inside is known.</param>
/// <param name="TotalDifferentialIn">Change of the total differential.</param>
/// <param name="IntermediateDifferentialIn">Change of the intermediate differential.</param>
/// <param name="ThinnestWallIn">The thinnest wall between holes afterwards; null with fewer than two holes.</param>
/// <param name="Basis">What the ranges are based on.</param>
public sealed record DrillingEffect(
    Estimate WeightOz,
    Estimate X,
    Estimate Y,
    Estimate Z,
    Estimate LowRgIn,
    Estimate TotalDifferentialIn,
    Estimate IntermediateDifferentialIn,
    double? ThinnestWallIn,
    EstimateBasis Basis)
{
    /// <summary>Compares the ball with its holes before and after the change.</summary>
    /// <exception cref="DescriptionException">A hole is not inside the ball.</exception>
    public static DrillingEffect Of(
        BallDescription ball, IReadOnlyList<DrilledHole> before, IReadOnlyList<DrilledHole> after, ScaleConstant scale)
    {
        MassPropertiesOf.ThrowUnlessDrillable(ball, before);
        MassPropertiesOf.ThrowUnlessDrillable(ball, after);
        var (bodies, basis) = PlausibleInteriors.Of(ball);
        var (boresBefore, boresAfter) = (MassPropertiesOf.Bores(ball, before), MassPropertiesOf.Bores(ball, after));
        (MassProperties Before, MassProperties After)[] pairs =
        [
            .. bodies.Select(body => (
                MassPropertiesOf.Compute(body, boresBefore, Fineness.Figures),
                MassPropertiesOf.Compute(body, boresAfter, Fineness.Figures))),
        ];
        return new DrillingEffect(
            Change(each => each.MassOz),
            Change(each => StaticMoment.ToOunces(each.MomentOzIn.X, scale)),
            Change(each => StaticMoment.ToOunces(each.MomentOzIn.Y, scale)),
            Change(each => StaticMoment.ToOunces(each.MomentOzIn.Z, scale)),
            Change(each => each.PrincipalRgIn.LowIn),
            Change(each => each.TotalDifferentialIn),
            Change(each => each.IntermediateDifferentialIn),
            HoleWall.Between(ball, after) is [var thinnest, ..] ? thinnest.WallIn : null,
            basis);

        Estimate Change(Func<MassProperties, double> figure) =>
            Estimate.Over(pairs.Select(pair => figure(pair.After) - figure(pair.Before)));
    }
}
