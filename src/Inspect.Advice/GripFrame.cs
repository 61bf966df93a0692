using Inspect.Ball;
using Inspect.Sheets;
using Inspect.Sheets.Described;

namespace Inspect.Advice;

/// <summary>The frame in which a grip is described: +x the bowler's right, +y
/// towards the fingers, +z from the ball's centre to the grip's centre.</summary>
/// <remarks>Seen looking at the grip with the fingers away. On a right
/// hand the middle finger lies at −x and the ring finger at +x.</remarks>
public static class GripFrame
{
    private const double AtThePole = 1e-9;

    /// <summary>Where a place lies on a ball of this radius, or null where its distance or a direction it needs is not given.</summary>
    /// <exception cref="DescriptionException">It lies off the ball.</exception>
    public static HolePlacement? PlacementOf(SurfacePlace? place) => (place?.Arc, place?.Angle, place?.Azimuth) switch
    {
        ({ } arc, _, { } azimuth) => HolePlacement.AtArc(Physical.Value(arc), Physical.Value(azimuth)),
        (null, { } angle, { } azimuth) => HolePlacement.AtAngle(Physical.Value(angle), Physical.Value(azimuth)),
        ({ Value: 0 }, _, null) => HolePlacement.AtArc(0, 0),
        (null, { Value: 0 }, null) => HolePlacement.AtAngle(0, 0),
        _ => null,
    };

    /// <summary>The direction from the ball's centre to a place.</summary>
    public static Vector DirectionOf(HolePlacement placement, double radiusIn)
    {
        var (angle, azimuth) = (placement.AngleRad(radiusIn), placement.AzimuthDeg * Math.PI / 180);
        return new Vector(Math.Sin(angle) * Math.Cos(azimuth), Math.Sin(angle) * Math.Sin(azimuth), Math.Cos(angle));
    }

    /// <summary>Where a hole's axis ends, in inches from the ball's centre.</summary>
    public static Vector BottomOf(DrilledHole hole, double radiusIn)
    {
        ArgumentNullException.ThrowIfNull(hole);
        var entry = DirectionOf(hole.Placement, radiusIn);
        var (south, east) = Tangents(entry, hole.Placement.AzimuthDeg * Math.PI / 180);
        var lean = ((hole.PitchSouthIn * south) + (hole.PitchEastIn * east)) / radiusIn;
        var inward = lean - (Math.Sqrt(Math.Max(0, 1 - lean.Dot(lean))) * entry);
        return (entry * radiusIn) + (inward * hole.AxisDepthIn(radiusIn));
    }

    /// <summary>The same hole seen from the pin: the frame of a ball's declared axes.</summary>
    /// <param name="hole">A hole of the grip frame.</param>
    /// <param name="radiusIn">The ball's radius.</param>
    /// <param name="pin">The direction of the pin, the low axis.</param>
    /// <param name="highAxis">The direction of the high axis' mark; null where all directions across the pin are alike.</param>
    public static DrilledHole FromThePin(DrilledHole hole, double radiusIn, Vector pin, Vector? highAxis)
    {
        ArgumentNullException.ThrowIfNull(hole);
        var (x, y) = Across(pin, highAxis);
        var entry = DirectionOf(hole.Placement, radiusIn);
        var (south, east) = Tangents(entry, hole.Placement.AzimuthDeg * Math.PI / 180);
        var lean = (hole.PitchSouthIn * south) + (hole.PitchEastIn * east);
        var turned = Seen(entry, x, y, pin);
        var isAtThePin = IsAtThePole(turned);
        var azimuth = isAtThePin ? 0 : Math.Atan2(turned.Y, turned.X);
        var angle = isAtThePin ? 0 : Math.Atan2(Math.Sqrt((turned.X * turned.X) + (turned.Y * turned.Y)), turned.Z);
        var (newSouth, newEast) = Tangents(turned, azimuth);
        var turnedLean = Seen(lean, x, y, pin);
        return DrilledHole.Of(
            HolePlacement.AtAngle(angle * 180 / Math.PI, azimuth * 180 / Math.PI),
            hole.DiameterIn, hole.DepthIn, hole.DepthTo, hole.Bottom, turnedLean.Dot(newSouth), turnedLean.Dot(newEast));
    }

    /// <summary>Two directions that with the pin's make a frame, the first as near to the high axis as it can be.</summary>
    private static (Vector X, Vector Y) Across(Vector pin, Vector? highAxis)
    {
        var towards = highAxis ?? (Math.Abs(pin.Z) < 0.9 ? Vector.UnitZ : Vector.UnitX);
        var across = towards - (towards.Dot(pin) * pin);
        if (across.Length < AtThePole)
        {
            return Across(pin, null);
        }

        var x = across / across.Length;
        return (x, pin.Cross(x));
    }

    private static bool IsAtThePole(Vector entry) => entry.Z > 0 && Math.Abs(entry.X) < AtThePole && Math.Abs(entry.Y) < AtThePole;

    private static Vector Seen(Vector vector, Vector x, Vector y, Vector z) => new(vector.Dot(x), vector.Dot(y), vector.Dot(z));

    /// <summary>The directions on the surface away from the pole and towards growing azimuth; at the pole itself +x and +y.</summary>
    private static (Vector South, Vector East) Tangents(Vector entry, double azimuth)
    {
        if (IsAtThePole(entry))
        {
            return (Vector.UnitX, Vector.UnitY);
        }

        var across = Math.Sqrt((entry.X * entry.X) + (entry.Y * entry.Y));
        return (new Vector(entry.Z * Math.Cos(azimuth), entry.Z * Math.Sin(azimuth), -across),
            new Vector(-Math.Sin(azimuth), Math.Cos(azimuth), 0));
    }
}
