namespace Inspect.Ball;

/// <summary>Ounces on a balance scale and the first moment they stand for: S = L · T.</summary>
/// <remarks>
/// "Ounces of side weight" are a first moment divided by a length, not a mass; only the moment belongs to the ball. A predicted
/// value is an estimate and never a verdict: the scale decides.
/// </remarks>
public static class StaticMoment
{
    /// <summary>The first moment in oz·in along the axis that showed these ounces.</summary>
    public static double FromOunces(double ounces, ScaleConstant scale) => ounces * scale.Inches;

    /// <summary>What the scale shows of this first moment along one axis.</summary>
    public static double ToOunces(double momentOzIn, ScaleConstant scale) => momentOzIn / scale.Inches;

    /// <summary>The readings of three axes as one first moment.</summary>
    public static Vector FromOunces(Vector ounces, ScaleConstant scale) => ounces * scale.Inches;

    /// <summary>What the scale shows of a first moment in oz·in along each of the three axes.</summary>
    public static Vector ToOunces(Vector momentOzIn, ScaleConstant scale) => momentOzIn / scale.Inches;

    /// <summary>What drilling these holes changes of the first moment; the undrilled ball's own is not part of it.</summary>
    /// <exception cref="DescriptionException">A hole does not lie in the ball.</exception>
    public static Vector ChangeByDrilling(BallDescription ball, IReadOnlyList<DrilledHole> holes)
    {
        MassPropertiesOf.ThrowUnlessDrillable(ball, holes);
        var body = Body.Of(ball);
        return MassPropertiesOf.Compute(body, MassPropertiesOf.Bores(ball, holes), Fineness.Figures).MomentOzIn - body.First;
    }

    /// <summary>
    /// For each axis, the mass of the half on its positive side less that of the other half, as drilling changes it: only an
    /// explanation of the rule's wording, because no scale shows it. It differs from a scale's ounces by a factor of 1.4 to 9.5 or so.
    /// </summary>
    /// <exception cref="DescriptionException">A hole does not lie in the ball.</exception>
    public static Vector HalvesChangeByDrilling(BallDescription ball, IReadOnlyList<DrilledHole> holes)
    {
        MassPropertiesOf.ThrowUnlessDrillable(ball, holes);
        var steps = Body.Of(ball).Steps;
        var bores = MassPropertiesOf.Bores(ball, holes);
        var sum = new HalvesSum();
        for (var i = 0; i < bores.Length; i++)
        {
            Removal.Integrate(steps, bores[i], bores.AsSpan(0, i), Fineness.Halves, ref sum);
        }

        return -sum.Difference;
    }
}
