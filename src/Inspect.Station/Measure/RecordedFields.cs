using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Advice;
using Inspect.Ledger;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Record;

namespace Inspect.Station.Measure;

/// <summary>A recorded sheet turned back into what would be typed to make it, for an inspector who took a record back to put one thing right.</summary>
/// <remarks>Nothing that is measured is ever filled in beforehand but here, and only for who typed it a minute ago.</remarks>
internal static class RecordedFields
{
    /// <summary>The fields, or null where they would not make this very sheet again: a program sent what the form has no field for.</summary>
    /// <param name="inspection">What was recorded.</param>
    /// <param name="reasonOf">Why a reading was left out, behind the hash of its reason; null once struck.</param>
    public static TypedFields? Of(Inspection inspection, Func<string, string?> reasonOf)
    {
        var sheet = inspection.Sheet;
        var fields = new Dictionary<string, string[]>(StringComparer.Ordinal) { ["play"] = [sheet.Play.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)] };
        PutIdentity(fields, sheet);
        PutWeights(fields, sheet.Weights);
        PutSurface(fields, sheet);
        PutHoles(fields, sheet);
        PutSeveral(fields, inspection);
        PutLeftOut(fields, inspection, reasonOf);
        var typed = TypedFields.Of(fields.AsEnumerable());
        var form = MeasureForm.From(typed);
        var recorded = SheetJson.Write(sheet with { Authority = null, Edition = null, Plan = null, Circumstances = null });
        return form.Faults.AreNone && Plain(form.Sheet) == Plain(recorded) ? typed : null;
    }

    /// <summary>A sheet as text that is the same for the same sheet: its holes in any order, its signs written in any way.</summary>
    private static string Plain(JsonObject sheet)
    {
        var copy = sheet.DeepClone().AsObject();
        if (copy["holes"] is JsonArray holes)
        {
            copy["holes"] = new JsonArray([.. holes.Select(hole => Text(hole!)).Order(StringComparer.Ordinal).Select(text => (JsonNode)text)]);
        }

        return Text(copy).Replace('\u2212', '-').Replace("\"+", "\"", StringComparison.Ordinal);

        static string Text(JsonNode node) => Encoding.UTF8.GetString(CanonicalJson.Write(node));
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
        Put(fields, "ball.declared.rg", sheet.Ball?.Declared?.Rg?.Text);
        Put(fields, "ball.declared.differential", sheet.Ball?.Declared?.Differential?.Text);
        Put(fields, "ball.declared.intermediate", sheet.Ball?.Declared?.Intermediate?.Text);
        foreach (var ((path, _), place) in FormFields.Marks.Zip([sheet.Ball?.Pin, sheet.Ball?.MassBias, sheet.Ball?.GravityMark]))
        {
            PutPlace(fields, path, place);
        }

        if (sheet.Ball?.HouseBall is { } house)
        {
            fields["ball.house"] = ["yes"];
            Put(fields, "ball.houseBall.suppliedByCentre", Word(house.SuppliedByCentre));
            Put(fields, "ball.houseBall.shell", house.Shell is { } shell ? Words.Of(shell) : null);
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
            PutSided(fields, path, reading, (positive, negative));
        }

        Put(fields, "weights.anyHalves", weights?.AnyHalves?.Text);
        Put(fields, "weights.scaleConstant", weights?.ScaleConstant?.Text);
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

    /// <summary>The rows that a hole can stand in, its own first.</summary>
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

        Put(fields, $"{row}.diameter", hole.Diameter?.Text);
        Put(fields, $"{row}.depth", hole.Depth?.Text);
        Put(fields, $"{row}.device", hole.Device is { } device ? Words.Of(device) : null);
        Put(fields, "holes.depthTo", hole.DepthTo is { } depthTo ? Words.Of(depthTo) : null);
        PutPlace(fields, $"{row}.position", hole.Position);
        PutSided(fields, $"{row}.pitch.south", hole.Pitch?.South, PitchSides.Along);
        PutSided(fields, $"{row}.pitch.east", hole.Pitch?.East, PitchSides.Across(hole, hand));
        foreach (var (piece, field) in (hole.Pieces ?? []).Zip(FormFields.Pieces(row)))
        {
            Put(fields, $"{field}.diameter", piece.Diameter?.Text);
            Put(fields, $"{field}.depth", piece.Depth?.Text);
        }
    }

    /// <summary>Each reading where it was typed, instead of the value that was worked out of them.</summary>
    private static void PutSeveral(Dictionary<string, string[]> fields, Inspection inspection)
    {
        foreach (var several in inspection.Observations.GroupBy(one => one.Path).Select(one => SeveralReadings.Of(one.Key, [.. one], inspection.Sheet)).OfType<SeveralReadings>())
        {
            foreach (var (typed, name) in several.Typed)
            {
                if (FormFields.Imbalances.FirstOrDefault(each => each.Path == several.Field) is { Path: not null } axis)
                {
                    PutSided(fields, name, ReadingParser.Parse(typed, Quantity.Imbalance).Reading, (axis.Positive, axis.Negative));
                }
                else
                {
                    Put(fields, name, typed);
                }
            }
        }
    }

    private static void PutLeftOut(Dictionary<string, string[]> fields, Inspection inspection, Func<string, string?> reasonOf)
    {
        var known = inspection.NotMeasured.Select(left => (Field: FormFields.FieldOf(left.Path, inspection.Sheet), Reason: reasonOf(left.ReasonHash)))
            .Where(left => left.Reason is not null && FormFields.Readings.Any(reading => reading.Path == left.Field));
        foreach (var (row, left) in known.Index())
        {
            Put(fields, FormFields.Left(row, "path"), left.Field);
            Put(fields, FormFields.Left(row, "reason"), left.Reason);
        }
    }

    private static void PutPlace(Dictionary<string, string[]> fields, string field, SurfacePlace? place)
    {
        Put(fields, $"{field}.arc", (place?.Arc ?? place?.Angle)?.Text);
        Put(fields, $"{field}.azimuth", place?.Azimuth?.Text);
    }

    private static void PutSided(Dictionary<string, string[]> fields, string field, Reading? reading, (string Positive, string Negative) sides)
    {
        Put(fields, field, reading?.Text.TrimStart('-', '\u2212', '+'));
        Put(fields, $"{field}.side", reading is null or { Value: 0 } ? null : reading.Value > 0 ? sides.Positive : sides.Negative);
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
