using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets;

/// <summary>Reads what a sheet needs for advice and pictures only: places on the surface, pitches and declared figures.</summary>
internal static class PlacesReader
{
    /// <summary>A place seen from the grip's centre, or null when absent or refused.</summary>
    public static SurfacePlace? Place(StrictObject members, string name)
    {
        if (members.Object(name) is not { } place)
        {
            return null;
        }

        var read = new SurfacePlace(
            place.Reading("arc", Quantity.SignedLength),
            place.Reading("angle", Quantity.Angle),
            place.Reading("azimuth", Quantity.Angle));
        if (place.Has("arc") && place.Has("angle"))
        {
            place.Refuse("angle", "A place is given by its arc on the surface or its angle at the centre; give one of them.");
        }

        foreach (var (member, reading) in new[] { ("arc", read.Arc), ("angle", read.Angle) })
        {
            if (reading is { Value: < 0 })
            {
                place.Refuse(
                    member, $"\"{reading.Text}\" is negative; measure from the grip's centre and give the direction as the azimuth.");
            }
        }

        place.Close();
        return read;
    }

    /// <summary>A hole's pitch, or null when absent or refused.</summary>
    public static HolePitch? Pitch(StrictObject hole)
    {
        if (hole.Object("pitch") is not { } pitch)
        {
            return null;
        }

        var read = new HolePitch(pitch.Reading("south", Quantity.SignedLength), pitch.Reading("east", Quantity.SignedLength));
        pitch.Close();
        return read;
    }

    /// <summary>The figures declared of a ball, or null when absent or refused.</summary>
    public static DeclaredFigures? Declared(StrictObject ball)
    {
        if (ball.Object("declared") is not { } declared)
        {
            return null;
        }

        var read = new DeclaredFigures(
            declared.Reading("rg", Quantity.Length),
            declared.Reading("differential", Quantity.SignedLength),
            declared.Reading("intermediate", Quantity.SignedLength));
        declared.Close();
        return read;
    }
}
