using Inspect.Ball;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Described;

/// <summary>Reads one described hole: where it starts, how wide and deep it is, how it ends and which way it leans.</summary>
internal static class HoleReader
{
    private static readonly IReadOnlyDictionary<string, HoleBottom> Bottoms =
        Words.Written(("flat", HoleBottom.Flat), ("cone118", HoleBottom.Cone118), ("hemisphere", HoleBottom.Hemisphere));

    /// <summary>The hole, or null when it has faults; they are added to the list.</summary>
    public static DrilledHole? Read(StrictObject members, List<Fault> faults)
    {
        var before = faults.Count;
        members.Require("diameter");
        members.Require("depth");
        var (arc, angle) = (members.Reading("arc", Quantity.SignedLength), members.Reading("angle", Quantity.Angle));
        if (members.Has("arc") == members.Has("angle"))
        {
            members.Refuse(
                members.Has("arc") ? "angle" : "arc",
                "A hole is placed by its arc on the surface or its angle at the centre; give one of them.");
        }

        // At the pin itself a direction means nothing and may be left out.
        if ((arc ?? angle)?.Value != 0)
        {
            members.Require("azimuth");
        }

        var azimuth = members.Reading("azimuth", Quantity.Angle);
        var diameter = members.Reading("diameter", Quantity.Length);
        var depth = members.Reading("depth", Quantity.SignedLength);
        var depthTo = members.Choice("depthTo", Words.DepthsTo) ?? DepthTo.Axis;
        var bottom = members.Choice("bottom", Bottoms) ?? HoleBottom.Flat;
        var (south, east) = members.Object("pitch") is { } pitch ? ReadPitch(pitch) : (0, 0);
        members.Close();
        return faults.Count > before ? null : Make(members.Path, faults);

        DrilledHole? Make(string path, List<Fault> to)
        {
            var at = path + ".";
            var place = new HolePlacement();
            var turned = azimuth is null ? 0 : Physical.Value(azimuth);
            var isPlaced = DescriptionFaults.Collect(at, to, () =>
            {
                place = arc is not null ? HolePlacement.AtArc(Physical.Value(arc), turned)
                    : HolePlacement.AtAngle(Physical.Value(angle!), turned);
                return "placed";
            });
            var hole = DescriptionFaults.Collect(
                at, to, () => DrilledHole.Of(place, Physical.Value(diameter!), Physical.Value(depth!), depthTo, bottom, south, east));
            return isPlaced is null ? null : hole;
        }
    }

    private static (double South, double East) ReadPitch(StrictObject members)
    {
        var (south, east) = (members.Reading("south", Quantity.SignedLength), members.Reading("east", Quantity.SignedLength));
        members.Close();
        return (south is null ? 0 : Physical.Value(south), east is null ? 0 : Physical.Value(east));
    }
}
