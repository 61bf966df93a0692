using System.Text.Json.Nodes;
using Inspect.Sheets.Described;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Form;

/// <content>Places on the ball and the pitch of holes. They are used for advice, hints and pictures, not for verdicts.</content>
public sealed partial class MeasureForm
{
    /// <summary>A place as the sheet has it, or null when nothing usable was typed.</summary>
    /// <param name="field">The place's field, such as <c>hole.thumb.position</c> or <c>ball.pin</c>.</param>
    private JsonObject? Place(string field)
    {
        var (far, direction) = ($"{field}.arc", $"{field}.azimuth");
        var isAngle = Typed(far).EndsWith('°') || Typed(far).EndsWith("deg", StringComparison.OrdinalIgnoreCase);
        var distance = isAngle ? Read(far, Quantity.Angle, Unit.Degree) : Read(far, Quantity.SignedLength, Unit.Inch);
        var azimuth = Read(direction, Quantity.Angle, Unit.Degree);
        if (distance is not null and not { Value: 0 } && Typed(direction).Length == 0)
        {
            Refuse(
                direction,
                $"\"{Typed(far)}\" needs a direction too: 0 is the bowler's right, 90 the fingers, 180 left, 270 the thumb.");
        }
        else if (azimuth is not null && Typed(far).Length == 0)
        {
            Refuse(
                far,
                $"\"{Typed(direction)}\" is a direction and needs a distance too: from the grip's centre along the surface, in inches.");
        }

        var place = new JsonObject();
        Add(place, isAngle ? "angle" : "arc", distance?.Text);
        Add(place, "azimuth", azimuth?.Text);
        return place.Count > 0 ? place : null;
    }

    /// <summary>The pitch of a hole with the sheet's signs; empty when nothing usable was typed.</summary>
    private JsonObject Pitch(string row)
    {
        var pitch = new JsonObject();
        Add(pitch, "south", Leaning($"{row}.pitch.south", PitchSides.Along));
        if (Typed($"{row}.pitch.east").Length == 0)
        {
            return pitch;
        }

        if (Sideways(row) is { } sides)
        {
            Add(pitch, "east", Leaning($"{row}.pitch.east", sides));
        }
        else
        {
            Refuse(
                $"{row}.pitch.east",
                $"\"{Typed($"{row}.pitch.east")}\" cannot be used: this hole is straight to the side of the grip's centre, where left and "
                + "right are forward and reverse; enter it as forward or reverse.");
        }

        return pitch;
    }

    private string? Leaning(string name, Sides sides) =>
        Signed(
            name,
            Quantity.SignedLength,
            Unit.Inch,
            sides,
            $"\"{Typed(name)}\" does not say which way the bottom of the hole leans; choose {sides.Positive} or {sides.Negative}.")?.Text;

    private Sides? Sideways(string row)
    {
        if (!Words.Digits.TryGetValue(row["hole.".Length..], out var digit))
        {
            return PitchSides.Around;
        }

        var azimuth = ReadingParser.Parse(Typed($"{row}.position.azimuth"), Quantity.Angle, Unit.Degree).Reading;
        var hand = Typed("grip.hand") == Words.Of(Hand.Left) ? Hand.Left : Hand.Right;
        return PitchSides.Across(digit, azimuth is null ? null : Physical.Value(azimuth), hand);
    }
}
