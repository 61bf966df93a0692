using Inspect.Ball;

namespace Inspect.Sheets.Form;

/// <summary>Where the holes of an ordinary grip are, used when nobody measured their places; common practice, no source.</summary>
public static class CommonGrip
{
    /// <summary>The distance of a finger hole from the grip's centre along the surface, in inches.</summary>
    public const double FingerArcIn = 2.35;

    /// <summary>The distance of a thumb hole from the grip's centre along the surface, in inches.</summary>
    public const double ThumbArcIn = 2.5;

    /// <summary>The place of a digit's hole, or null when there is no usual place.</summary>
    public static HolePlacement? PlaceOf(Digit? digit, Hand hand)
    {
        var right = digit switch
        {
            Digit.Index => 138,
            Digit.Middle => 106,
            Digit.Ring => 74,
            Digit.Little => 42,
            Digit.Thumb => 270,
            _ => (int?)null,
        };
        return right is { } azimuth
            ? HolePlacement.AtArc(
                digit == Digit.Thumb ? ThumbArcIn : FingerArcIn, hand == Hand.Right || digit == Digit.Thumb ? azimuth : 180 - azimuth)
            : null;
    }
}
