namespace Inspect.Ball;

/// <summary>A hole as it is described: where it starts, how wide and deep it is, how it ends and which way it leans.</summary>
/// <remarks>
/// A pitch is the distance by which the hole's axis misses the ball's centre. With a positive south pitch the bottom leans away from the
/// pin, with a positive east pitch towards growing azimuth. The two add as vectors. At the pin south is +x and east +y.
/// </remarks>
public sealed record DrilledHole
{
    private DrilledHole(
        HolePlacement placement, double diameterIn, double depthIn, DepthTo depthTo, HoleBottom bottom, double southIn, double eastIn)
    {
        Placement = placement;
        DiameterIn = diameterIn;
        DepthIn = depthIn;
        DepthTo = depthTo;
        Bottom = bottom;
        PitchSouthIn = southIn;
        PitchEastIn = eastIn;
    }

    /// <summary>Where its axis meets the surface.</summary>
    public HolePlacement Placement { get; }

    /// <summary>The diameter in inches, above 0 and at most 5.</summary>
    public double DiameterIn { get; }

    /// <summary>Half the diameter, in inches.</summary>
    public double RadiusIn => DiameterIn / 2;

    /// <summary>The depth as measured, along the axis to the bottom or its tip; 0 means no hole.</summary>
    public double DepthIn { get; }

    /// <summary>Where the depth was measured from.</summary>
    public DepthTo DepthTo { get; }

    /// <summary>The shape of its bottom.</summary>
    public HoleBottom Bottom { get; }

    /// <summary>By how many inches the bottom leans away from the pin; negative means towards the pin.</summary>
    public double PitchSouthIn { get; }

    /// <summary>By how many inches the bottom leans towards growing azimuth; negative means the other way.</summary>
    public double PitchEastIn { get; }

    /// <summary>The distance by which the axis misses the ball's centre.</summary>
    public double PitchIn => Math.Sqrt((PitchSouthIn * PitchSouthIn) + (PitchEastIn * PitchEastIn));

    /// <summary>Describes a hole; lengths in inches.</summary>
    /// <exception cref="DescriptionException">A value cannot be that of a hole in any ball. Every such value is named.</exception>
    public static DrilledHole Of(
        HolePlacement placement,
        double diameterIn,
        double depthIn,
        DepthTo depthTo = DepthTo.Axis,
        HoleBottom bottom = HoleBottom.Flat,
        double pitchSouthIn = 0,
        double pitchEastIn = 0)
    {
        var faults = new FaultList();
        faults.Positive("diameter", diameterIn, 5, "a hole's diameter in inches");
        faults.Within("depth", depthIn, 0, 20, "a hole's depth in inches");
        if (!Enum.IsDefined(depthTo))
        {
            faults.Add("depthTo", $"'{depthTo}' is no place to measure a depth from: it is axis or rim.");
        }

        if (!Enum.IsDefined(bottom))
        {
            faults.Add("bottom", $"'{bottom}' is no shape of a hole's bottom: it is flat, cone118 or hemisphere.");
        }

        faults.Within("pitch.south", pitchSouthIn, -5, 5, "a pitch in inches");
        faults.Within("pitch.east", pitchEastIn, -5, 5, "a pitch in inches");
        faults.ThrowIfAny();
        return new DrilledHole(placement, diameterIn, depthIn, depthTo, bottom, pitchSouthIn, pitchEastIn);
    }

    /// <summary>The same hole drilled to another depth, measured the same way.</summary>
    public DrilledHole WithDepth(double depthIn) =>
        Of(Placement, DiameterIn, depthIn, DepthTo, Bottom, PitchSouthIn, PitchEastIn);

    /// <summary>The same hole drilled to another diameter.</summary>
    public DrilledHole WithDiameter(double diameterIn) =>
        Of(Placement, diameterIn, DepthIn, DepthTo, Bottom, PitchSouthIn, PitchEastIn);

    /// <summary>How far a gauge across the rim lies below the point where the axis meets the surface.</summary>
    public double RimBelowSurfaceIn(double ballRadiusIn) =>
        ballRadiusIn - Math.Sqrt((ballRadiusIn * ballRadiusIn) - (RadiusIn * RadiusIn));

    /// <summary>The depth from the point where the axis meets the surface.</summary>
    public double AxisDepthIn(double ballRadiusIn) =>
        DepthTo == DepthTo.Rim && DepthIn > 0 ? DepthIn + RimBelowSurfaceIn(ballRadiusIn) : DepthIn;

    /// <summary>Adds the faults that keep this hole from lying in a ball of the given radius.</summary>
    internal void CheckIn(double ballRadiusIn, string member, FaultList faults)
    {
        if (Placement.ArcIn is { } arc && arc > Math.PI * ballRadiusIn)
        {
            faults.Add($"{member}.arc", arc,
                $"on this ball the point farthest from the pin is {FaultList.Text(Math.PI * ballRadiusIn)} in away");
        }

        if (PitchIn + RadiusIn >= ballRadiusIn)
        {
            faults.Add($"{member}.pitch", PitchIn, "so wide a hole with so much pitch would break out of the side of the ball");
            return;
        }

        var through = 2 * Math.Sqrt((ballRadiusIn * ballRadiusIn) - (PitchIn * PitchIn));
        if (AxisDepthIn(ballRadiusIn) >= through)
        {
            faults.Add($"{member}.depth", DepthIn,
                $"the hole would come out of the other side, {FaultList.Text(through)} in from where it starts");
        }
    }
}
