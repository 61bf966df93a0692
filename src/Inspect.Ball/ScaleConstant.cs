namespace Inspect.Ball;

/// <summary>The length by which a balance scale divides the first moment it weighs to show ounces; it belongs to that scale.</summary>
/// <remarks>
/// The factor-of-two trap: a scale that is read in both positions and quotes the whole difference has half the constant of one that
/// quotes a reading against a null. Taping a known mass on a ball finds the constant of the scale as it is read, and so avoids the trap.
/// </remarks>
public readonly record struct ScaleConstant
{
    /// <summary>Constants of scales lie between these, as far as anything published tells; weak and contradictory evidence.</summary>
    public const double PlausibleLeastIn = 3.1;

    /// <summary>The longest of them.</summary>
    public const double PlausibleMostIn = 4.3;

    private ScaleConstant(double inches, bool isCalibrated)
    {
        Inches = inches;
        IsCalibrated = isCalibrated;
    }

    /// <summary>The length, above 0 and at most 20 in.</summary>
    public double Inches { get; }

    /// <summary>Whether the constant was found on the scale itself; if not, ounces are an uncalibrated estimate.</summary>
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

    /// <summary>What is assumed of an uncalibrated scale: the ball's radius. The true ounces may be up to two fifths more.</summary>
    public static ScaleConstant Uncalibrated(double ballRadiusIn) => new(Known(ballRadiusIn).Inches, isCalibrated: false);

    /// <summary>Finds the constant from any ball and a known mass taped on its surface at the end of the axis that is read.</summary>
    /// <param name="massOz">The taped mass; 2 oz finds the constant to about 4 %, 4 oz to about 2 %, with readings to 1/16 oz.</param>
    /// <param name="ballRadiusIn">The ball's radius.</param>
    /// <param name="aboveSurfaceIn">How far above the surface the taped mass has its own centre.</param>
    /// <param name="withoutOz">The reading before taping.</param>
    /// <param name="withOz">The reading after it.</param>
    /// <exception cref="DescriptionException">The mass does not raise the reading, or the constant comes out beyond any
    /// scale's.</exception>
    public static ScaleConstant FromTapedMass(double massOz, double ballRadiusIn, double aboveSurfaceIn, double withoutOz, double withOz)
    {
        var faults = new FaultList();
        faults.Positive("mass", massOz, 64, "a taped mass in ounces");
        faults.Positive("ballRadius", ballRadiusIn, 10, "a ball's radius in inches");
        faults.Within("aboveSurface", aboveSurfaceIn, 0, 2, "a taped mass's height above the surface in inches");
        if (!double.IsFinite(withoutOz) || !double.IsFinite(withOz) || withOz <= withoutOz)
        {
            faults.Add("with", withOz, $"a mass at the end of the axis raises the reading above the {FaultList.Text(withoutOz)} oz before");
        }

        faults.ThrowIfAny();
        return Known(massOz * (ballRadiusIn + aboveSurfaceIn) / (withOz - withoutOz));
    }

    /// <summary>The constant of a beam with the ball's seat this far from the fulcrum, or of a cradle of this span with one end on a
    /// platform, read in both positions with the whole difference taken as the ounces: half the length.</summary>
    public static ScaleConstant OfSeatReadBothWays(double armIn) => Known(armIn / 2);

    /// <summary>The constant of an equal-arm scale that balances the ball over its pivot with a weight on an arm of this length.</summary>
    public static ScaleConstant OfPoise(double armIn) => Known(armIn);
}
