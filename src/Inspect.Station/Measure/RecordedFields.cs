using System.Globalization;
using Inspect.Rules.Readings;
using Inspect.Rules.Sheets;

namespace Inspect.Station.Measure;

/// <summary>A recorded sheet turned back into what would be typed to make it, for an inspector who took a record back to put one thing right.</summary>
/// <remarks>Nothing that is measured is ever filled in beforehand but here, and only for who typed it a minute ago.</remarks>
internal static class RecordedFields
{
    /// <summary>The fields, or null where the sheet holds what the form has no field for: a program sent it.</summary>
    public static TypedFields? Of(Sheet sheet)
    {
        var fields = new Dictionary<string, string[]>(StringComparer.Ordinal) { ["play"] = [sheet.Play.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)] };
        PutIdentity(fields, sheet);
        PutWeights(fields, sheet.Weights);
        PutSurface(fields, sheet);
        return PutHoles(fields, sheet.Holes) ? TypedFields.Of(fields.AsEnumerable()) : null;
    }

    private static void PutIdentity(Dictionary<string, string[]> fields, Sheet sheet)
    {
        Put(fields, "grip.hand", sheet.Grip?.Hand is { } hand ? Words.Of(hand) : null);
        if (sheet.Grip?.Digits is { } digits)
        {
            fields["grip.digits"] = [.. digits.Select(Words.Of)];
        }

        Put(fields, "grip.demonstrated", Word(sheet.Grip?.Demonstrated));
        Put(fields, "ball.maker", sheet.Ball?.Maker);
        Put(fields, "ball.model", sheet.Ball?.Model);
        Put(fields, "ball.serial", sheet.Ball?.Serial);
        Put(fields, "ball.listed", sheet.Ball?.Listed is { } listed ? Words.Of(listed) : null);
        Put(fields, "ball.made", sheet.Ball?.Made?.Text);
        Put(fields, "ball.oilAbsorption", sheet.Ball?.OilAbsorption?.Text);
        Put(fields, "ball.highPerformanceCore", Word(sheet.Ball?.HighPerformanceCore));
        if (sheet.Ball?.HouseBall is { } house)
        {
            fields["ball.house"] = ["yes"];
            Put(fields, "ball.houseBall.suppliedByCentre", Word(house.SuppliedByCentre));
            Put(fields, "ball.houseBall.shell", house.Shell is { } shell ? Words.Shells.First(pair => pair.Value == shell).Key : null);
            Put(fields, "ball.houseBall.differential", house.Differential?.Text);
            Put(fields, "ball.houseBall.drilledForBowler", Word(house.DrilledForBowler));
        }
    }

    private static void PutWeights(Dictionary<string, string[]> fields, Weights? weights)
    {
        Put(fields, "weights.gross", weights?.Gross?.Text);
        var readings = new[] { weights?.TopBottom, weights?.LeftRight, weights?.FingerThumb };
        foreach (var ((path, positive, negative), reading) in FormFields.Imbalances.Zip(readings))
        {
            Put(fields, path, reading?.Text.TrimStart('-', '\u2212', '+'));
            Put(fields, $"{path}.side", reading is null or { Value: 0 } ? null : reading.Value > 0 ? positive : negative);
        }

        Put(fields, "weights.anyHalves", weights?.AnyHalves?.Text);
    }

    private static void PutSurface(Dictionary<string, string[]> fields, Sheet sheet)
    {
        PutAll("size.diameters", sheet.Size?.Diameters);
        Put(fields, "size.circumference", sheet.Size?.Circumference?.Text);
        PutAll("hardness.readings", sheet.Hardness?.Readings);
        Put(fields, "hardness.temperature", sheet.Hardness?.Temperature?.Text);
        Put(fields, "marks.modelReadable", Word(sheet.Marks?.ModelReadable));
        Put(fields, "marks.serialReadable", Word(sheet.Marks?.SerialReadable));
        Put(fields, "marks.palmMarks", sheet.Marks?.PalmMarks?.ToString(CultureInfo.InvariantCulture));
        Put(fields, "marks.foreignMaterial", Word(sheet.Marks?.ForeignMaterial));
        Put(fields, "marks.surfacePattern", Word(sheet.Marks?.SurfacePattern));

        void PutAll(string path, IReadOnlyList<Reading>? readings)
        {
            foreach (var (i, reading) in (readings ?? []).Index())
            {
                Put(fields, FormattableString.Invariant($"{path}[{i}]"), reading.Text);
            }
        }
    }

    private static bool PutHoles(Dictionary<string, string[]> fields, IReadOnlyList<Hole>? holes)
    {
        if (holes is null)
        {
            return true;
        }

        var (vents, others) = (0, 0);
        foreach (var hole in holes)
        {
            var row = hole.Kind switch
            {
                HoleKind.Grip or HoleKind.Indentation => hole.Digit is { } digit ? $"hole.{Words.Of(digit)}" : "",
                HoleKind.Vent => FormattableString.Invariant($"hole.vent{++vents}"),
                HoleKind.Mill => "hole.mill",
                _ => "hole.balance",
            };
            if (row.Length == 0 || vents > 2 || fields.ContainsKey($"{row}.diameter") || hole.Pieces is not null || hole.Position is not null)
            {
                return false;
            }

            Put(fields, $"{row}.kind", hole.Kind == HoleKind.Indentation ? "indentation" : hole.Kind == HoleKind.Grip ? "hole" : null);
            Put(fields, $"{row}.diameter", hole.Diameter?.Text);
            Put(fields, $"{row}.depth", hole.Depth?.Text);
            Put(fields, $"{row}.in", hole.In is { } host ? Words.Of(host) : null);
            Put(fields, $"{row}.device", hole.Device is { } device ? Words.Devices.First(pair => pair.Value == device).Key : null);
            others += hole.Kind is HoleKind.Grip or HoleKind.Indentation ? 0 : 1;
        }

        fields["holes.other"] = [others > 0 ? "listed" : "none"];
        Put(fields, "holes.second", holes.FirstOrDefault(hole => hole.SecondaryHole == true)?.Digit is { } second ? Words.Of(second)
            : holes.Any(hole => hole.SecondaryHole == false) ? "none" : null);
        return true;
    }

    private static string? Word(bool? flag) => flag is null ? null : flag.Value ? "yes" : "no";

    private static void Put(Dictionary<string, string[]> fields, string name, string? value)
    {
        if (value is { Length: > 0 })
        {
            fields[name] = [value];
        }
    }
}
