namespace Inspect.Ball;

/// <summary>Converts between ounces on a balance scale and the first moment that they stand for: S = L · T.</summary>
/// <remarks>
/// "Ounces of side weight" are a first moment divided by a length, not a mass. Only the moment belongs to the ball. A predicted
/// value is an estimate and never a verdict: the scale decides.
/// </remarks>
public static class StaticMoment
{
    /// <summary>The first moment in oz·in along the axis that showed these ounces.</summary>
    public static double FromOunces(double ounces, ScaleConstant scale) => ounces * scale.Inches;

    /// <summary>What the scale shows for this first moment along one axis.</summary>
    public static double ToOunces(double momentOzIn, ScaleConstant scale) => momentOzIn / scale.Inches;

    /// <summary>The readings of three axes as one first moment.</summary>
    public static Vector FromOunces(Vector ounces, ScaleConstant scale) => ounces * scale.Inches;

    /// <summary>What the scale shows for a first moment in oz·in along each of the three axes.</summary>
    public static Vector ToOunces(Vector momentOzIn, ScaleConstant scale) => momentOzIn / scale.Inches;
}
