using System.Globalization;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Form;

/// <summary>Turns a sheet back into what would be typed to make it, the reverse of <see cref="MeasureForm"/>.</summary>
public static class SheetFields
{
    /// <summary>The fields, each with its text.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="several">Values that were computed from several readings. Their readings are filled in instead of the value.</param>
    public static Dictionary<string, string[]> Of(Sheet sheet, IEnumerable<SeveralReadings> several)
    {
        var fields = new Dictionary<string, string[]>(StringComparer.Ordinal);
        foreach (var member in Catalogue.All.Where(member => member is { IsTyped: true, IsOfHole: false }))
        {
            // A place has one field for its distance, whether it was given as an arc or as an angle.
            var field = member.Name == "angle" ? member.Path[..^"angle".Length] + "arc" : null;
            foreach (var said in member.On(sheet))
            {
                Put(fields, field ?? said.Path, said.Value, member.Sides);
            }
        }

        Put(fields, "ball.house", sheet.Ball?.HouseBall is null ? null : "yes");
        PutHoles(fields, sheet);
        foreach (var one in several)
        {
            foreach (var (typed, name) in one.Typed)
            {
                var member = FormFields.MemberOf(one.Field)!;
                Put(fields, name, member.Sides is null ? typed : ReadingParser.Parse(typed, member.Quantity!.Value).Reading, member.Sides);
            }
        }

        return fields;
    }

    private static void PutHoles(Dictionary<string, string[]> fields, Sheet sheet)
    {
        if (sheet.Holes is not { } holes)
        {
            return;
        }

        var taken = new HashSet<string>(StringComparer.Ordinal);
        foreach (var hole in holes)
        {
            if (RowsOf(hole).FirstOrDefault(taken.Add) is { } row)
            {
                PutHole(fields, row, hole, sheet.Grip?.Hand);
            }
        }

        fields["holes.other"] = [holes.Any(hole => hole.Kind is not (HoleKind.Grip or HoleKind.Indentation)) ? "listed" : "none"];
        Put(fields, "holes.second", holes.FirstOrDefault(hole => hole.SecondaryHole == true)?.Digit is { } second ? Words.Of(second)
            : holes.Any(hole => hole.SecondaryHole == false) ? "none" : null);
    }

    /// <summary>The rows that a hole can go into, its own first.</summary>
    private static IEnumerable<string> RowsOf(Hole hole) =>
    [
        .. hole.Kind switch
        {
            HoleKind.Grip or HoleKind.Indentation when hole.Digit is { } digit => [FormFields.RowOf(digit)],
            HoleKind.Vent => ["hole.vent1", "hole.vent2"],
            HoleKind.Mill => ["hole.mill"],
            HoleKind.Balance => [FormFields.BalanceHole],
            _ => Array.Empty<string>(),
        },
        .. FormFields.FurtherHoles,
    ];

    private static void PutHole(Dictionary<string, string[]> fields, string row, Hole hole, Hand? hand)
    {
        if (FormFields.FurtherHoles.Contains(row))
        {
            Put(fields, $"{row}.kind", Words.Of(hole.Kind));
            Put(fields, $"{row}.digit", (hole.Digit ?? hole.In) is { } digit ? Words.Of(digit) : null);
        }
        else
        {
            Put(fields, $"{row}.kind", hole.Kind == HoleKind.Indentation ? "indentation" : hole.Kind == HoleKind.Grip ? "hole" : null);
            Put(fields, $"{row}.in", hole.In is { } host ? Words.Of(host) : null);
        }

        Put(fields, $"{row}.diameter", hole.Diameter);
        Put(fields, $"{row}.depth", hole.Depth);
        Put(fields, $"{row}.device", hole.Device is { } device ? Words.Of(device) : null);
        Put(fields, "holes.depthTo", hole.DepthTo is { } depthTo ? Words.Of(depthTo) : null);
        PutPlace(fields, $"{row}.position", hole.Position);
        Put(fields, $"{row}.pitch.south", hole.Pitch?.South, PitchSides.Along);
        Put(fields, $"{row}.pitch.east", hole.Pitch?.East, PitchSides.Across(hole, hand));
        foreach (var (piece, field) in (hole.Pieces ?? []).Zip(FormFields.Pieces(row)))
        {
            Put(fields, $"{field}.diameter", piece.Diameter);
            Put(fields, $"{field}.depth", piece.Depth);
        }
    }

    private static void PutPlace(Dictionary<string, string[]> fields, string field, SurfacePlace? place)
    {
        Put(fields, $"{field}.arc", place?.Arc ?? place?.Angle);
        Put(fields, $"{field}.azimuth", place?.Azimuth);
    }

    private static void Put(Dictionary<string, string[]> fields, string name, object? value, Sides? sides = null)
    {
        switch (value)
        {
            case Reading reading when sides is not null:
                Put(fields, name, Sides.Unsigned(reading.Text));
                Put(fields, $"{name}.side", reading.Value == 0 ? null : sides.By(reading.Value).Heavier);
                break;
            case IReadOnlyList<string> words:
                fields[name] = [.. words];
                break;
            case not null:
                fields[name] = [Text(value)];
                break;
        }
    }

    private static string Text(object value) => value switch
    {
        Reading reading => reading.Text,
        GaugeLimits limits => limits.Text,
        bool flag => flag ? "yes" : "no",
        int count => count.ToString(CultureInfo.InvariantCulture),
        _ => (string)value,
    };
}
