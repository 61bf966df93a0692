namespace Inspect.Ball;

/// <summary>Where a hole's axis meets the surface: how far from the pin, and in which direction.</summary>
/// <remarks>The azimuth is in degrees, 0 towards +x, growing towards +y. At the pin itself it means nothing.</remarks>
public readonly record struct HolePlacement
{
    private HolePlacement(double? arcIn, double? angleDeg, double azimuthDeg)
    {
        ArcIn = arcIn;
        AngleDeg = angleDeg;
        AzimuthDeg = azimuthDeg;
    }

    /// <summary>The distance from the pin along the surface; null when the hole was placed by its angle.</summary>
    public double? ArcIn { get; }

    /// <summary>The angle at the ball's centre; null when the hole was placed by its distance.</summary>
    public double? AngleDeg { get; }

    /// <summary>The direction from the pin in degrees, 0 towards +x and 90 towards +y.</summary>
    public double AzimuthDeg { get; }

    /// <summary>Places a hole by the distance from the pin measured along the surface.</summary>
    /// <exception cref="DescriptionException">A value is out of range.</exception>
    public static HolePlacement AtArc(double arcIn, double azimuthDeg)
    {
        var faults = new FaultList();
        faults.Within("arc", arcIn, 0, 50, "an arc in inches");
        CheckAzimuth(faults, azimuthDeg);
        faults.ThrowIfAny();
        return new HolePlacement(arcIn, null, azimuthDeg);
    }

    /// <summary>Places a hole by the angle at the ball's centre, 0 to 180 degrees from the pin.</summary>
    /// <exception cref="DescriptionException">A value is out of range.</exception>
    public static HolePlacement AtAngle(double angleDeg, double azimuthDeg)
    {
        var faults = new FaultList();
        faults.Within("angle", angleDeg, 0, 180, "an angle from the pin in degrees");
        CheckAzimuth(faults, azimuthDeg);
        faults.ThrowIfAny();
        return new HolePlacement(null, angleDeg, azimuthDeg);
    }

    /// <summary>The angle at the centre in radians on a ball of this radius.</summary>
    public double AngleRad(double radiusIn) => ArcIn is { } arc ? arc / radiusIn : (AngleDeg ?? 0) * Math.PI / 180;

    private static void CheckAzimuth(FaultList faults, double azimuthDeg) =>
        faults.Within("azimuth", azimuthDeg, -360, 360, "an azimuth in degrees");
}
