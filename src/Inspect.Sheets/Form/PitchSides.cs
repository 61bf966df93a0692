using Inspect.Sheets.Described;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Form;

/// <summary>Which way a hole leans, in a driller's words, and the sign that a sheet gives it.</summary>
/// <remarks>
/// Forward brings the bottom of the hole towards the grip's centre, reverse away from it. Left and right are those of a person who looks
/// at the grip with the fingers away. Common practice, no source. A sheet counts away from the centre, and towards growing azimuth, which
/// runs leftwards at the fingers and rightwards at the thumb.
/// </remarks>
public static class PitchSides
{
    /// <summary>This near to straight left or right of the centre, left and right are no longer sideways: the sine of 6 degrees.</summary>
    private const double Sideways = 0.1;

    /// <summary>The words for a positive and a negative pitch away from the grip's centre.</summary>
    public static readonly Sides Along = Catalogue.At("holes[].pitch.south")!.Sides!;

    /// <summary>The words for a hole for no digit, which may be anywhere: with the growing direction of places, and against it.</summary>
    public static readonly Sides Around = new("anticlockwise", "clockwise");

    internal static readonly Sides LeftGrows = new("left", "right");
    private static readonly Sides RightGrows = new("right", "left");

    /// <summary>The words for a positive and a negative pitch towards growing azimuth at a digit's hole; null when they are neither left
    /// nor right.</summary>
    /// <param name="digit">The digit.</param>
    /// <param name="azimuthDeg">The hole's direction from the grip's centre; null for that of an ordinary grip.</param>
    /// <param name="hand">The hand, which an ordinary grip depends on.</param>
    public static Sides? Across(Digit digit, double? azimuthDeg, Hand hand)
    {
        var towardsTheRight = -Math.Sin((azimuthDeg ?? CommonGrip.PlaceOf(digit, hand)!.Value.AzimuthDeg) * Math.PI / 180);
        return towardsTheRight > Sideways ? RightGrows : towardsTheRight < -Sideways ? LeftGrows : null;
    }

    /// <summary>The same for a hole of a sheet. When the words are neither left nor right, they are <see cref="Around"/>.</summary>
    public static Sides Across(Hole hole, Hand? hand)
    {
        ArgumentNullException.ThrowIfNull(hole);
        var azimuth = hole.Position?.Azimuth is { } direction ? Physical.Value(direction) : (double?)null;
        return hole.Digit is { } digit ? Across(digit, azimuth, hand ?? Hand.Right) ?? Around : Around;
    }

    /// <summary>The pitch of a hole in words, such as <c>3/8 in reverse, 1/4 in left</c>, or null when none was measured.</summary>
    public static string? Text(Hole hole, Hand? hand)
    {
        ArgumentNullException.ThrowIfNull(hole);
        string[] parts = [.. new[] { Said(hole.Pitch?.South, Along), Said(hole.Pitch?.East, Across(hole, hand)) }.OfType<string>()];
        return parts.Length == 0 ? null : string.Join(", ", parts);
    }

    private static string? Said(Reading? pitch, Sides sides) => pitch is null ? null : sides.Say(pitch);
}
