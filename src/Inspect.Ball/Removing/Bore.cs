namespace Inspect.Ball;

/// <summary>A hole's place in a ball: its axis, the point of the axis nearest the centre, and its
/// bottom as a height along the axis.</summary>
/// <remarks>
/// Heights run inwards along <see cref="Axis"/> and are 0 at <see cref="Foot"/>. A bore has no upper end: the
/// ball itself limits it on the outside.
/// </remarks>
internal sealed class Bore
{
    private const double ConeHalfAngleDeg = 59;

    private Bore(DrilledHole hole, double radius, Vector entry, Vector axis, Vector foot, double entryHeight, double depth)
    {
        Bottom = hole.Bottom;
        Radius = hole.RadiusIn;
        Entry = entry;
        Axis = axis;
        Foot = foot;
        EntryHeight = entryHeight;
        TipHeight = entryHeight + depth;
        BallRadius = radius;
        Across = foot.Length > 1e-9 * radius ? foot / foot.Length : AnyAcross(axis);
        Along = axis.Cross(Across);
        IsEmpty = depth <= 0;
    }

    public HoleBottom Bottom { get; }

    public double Radius { get; }

    public double BallRadius { get; }

    /// <summary>Where the axis meets the surface.</summary>
    public Vector Entry { get; }

    /// <summary>The unit direction of drilling.</summary>
    public Vector Axis { get; }

    public Vector Foot { get; }

    /// <summary>A unit vector across the hole, towards the side on which a pitched axis misses the centre.</summary>
    public Vector Across { get; }

    public Vector Along { get; }

    public double EntryHeight { get; }

    public double TipHeight { get; }

    public bool IsEmpty { get; }

    /// <summary>The volume of a cylinder as wide and deep, by which errors are measured.</summary>
    public double VolumeIn3 => Math.PI * Radius * Radius * (TipHeight - EntryHeight);

    /// <summary>How fast the bottom rises with the distance from the axis: 0 unless it is a cone.</summary>
    public double ConeSlope => Bottom == HoleBottom.Cone118 ? 1 / Math.Tan(ConeHalfAngleDeg * Math.PI / 180) : 0;

    public Vector Tip => Foot + (TipHeight * Axis);

    /// <summary>The mean height of the bottom over the hole's cross-section: where one more cut removes material.</summary>
    public double MeanBottomHeight => Bottom switch
    {
        HoleBottom.Flat => TipHeight,
        HoleBottom.Cone118 => TipHeight - (2.0 / 3 * Radius * ConeSlope),
        _ => TipHeight - (Radius / 3),
    };

    public static Bore Of(DrilledHole hole, double ballRadius)
    {
        var angle = hole.Placement.AngleRad(ballRadius);
        var azimuth = angle == 0 ? 0 : hole.Placement.AzimuthDeg * Math.PI / 180;
        var (sin, cos) = Math.SinCos(angle);
        var (sinAzimuth, cosAzimuth) = Math.SinCos(azimuth);
        var outward = new Vector(sin * cosAzimuth, sin * sinAzimuth, cos);
        var south = new Vector(cos * cosAzimuth, cos * sinAzimuth, -sin);
        var east = new Vector(-sinAzimuth, cosAzimuth, 0);

        // The lean as a vector whose length is the sine of the angle between the axis and the radius.
        var lean = ((hole.PitchSouthIn * south) + (hole.PitchEastIn * east)) / ballRadius;
        var sinLean = lean.Length;
        var axis = lean - (Math.Sqrt(1 - (sinLean * sinLean)) * outward);
        var entry = ballRadius * outward;
        var entryHeight = entry.Dot(axis);
        return new Bore(hole, ballRadius, entry, axis, entry - (entryHeight * axis), entryHeight, hole.AxisDepthIn(ballRadius));
    }

    public double BottomHeight(double distance) => Bottom switch
    {
        HoleBottom.Flat => TipHeight,
        HoleBottom.Cone118 => TipHeight - (distance * ConeSlope),
        _ => TipHeight - Radius + Math.Sqrt(Math.Max(0, (Radius * Radius) - (distance * distance))),
    };

    /// <summary>Whether this bore and another can share a point: within the ball, their axes come
    /// nearer than the sum of their radii.</summary>
    public bool MayMeet(Bore other) =>
        !IsEmpty && !other.IsEmpty && Segment.Distance(Top, Tip, other.Top, other.Tip) < Radius + other.Radius;

    /// <summary>A point of the axis above everything that is both in the ball and in the bore.</summary>
    private Vector Top => Foot + ((-BallRadius - Radius) * Axis);

    private static Vector AnyAcross(Vector axis)
    {
        var seed = Math.Abs(axis.X) < 0.6 ? Vector.UnitX : Vector.UnitY;
        var across = seed - (seed.Dot(axis) * axis);
        return across / across.Length;
    }
}
