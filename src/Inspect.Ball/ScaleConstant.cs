namespace Inspect.Ball;

/// <summary>The length by which a balance scale divides the first moment it weighs to show ounces. Each scale has its own.</summary>
/// <remarks>
/// Beware of a factor of two. A scale that is read in both positions and quotes the whole difference has half the constant of one that
/// quotes a reading against zero. To find the constant of the scale as it is read, tape a known mass on a ball.
/// </remarks>
public readonly record struct ScaleConstant
{
    private ScaleConstant(double inches, bool isCalibrated)
    {
        Inches = inches;
        IsCalibrated = isCalibrated;
    }

    /// <summary>The length, above 0 and at most 20 in.</summary>
    public double Inches { get; }

    /// <summary>Whether the constant was found on the scale itself. If not, ounces are an uncalibrated estimate.</summary>
    public bool IsCalibrated { get; }

    /// <summary>A constant that is known, for example from an earlier calibration.</summary>
    /// <exception cref="DescriptionException">The length is not above 0 and at most 20 in.</exception>
    public static ScaleConstant Known(double inches)
    {
        var faults = new FaultList();
        faults.Positive("scaleConstant", inches, 20, "a scale's constant in inches");
        faults.ThrowIfAny();
        return new ScaleConstant(inches, isCalibrated: true);
    }

    /// <summary>The constant assumed for an uncalibrated scale: the ball's radius. The true ounces may be up to two fifths more.</summary>
    public static ScaleConstant Uncalibrated(double ballRadiusIn) => new(Known(ballRadiusIn).Inches, isCalibrated: false);
}
