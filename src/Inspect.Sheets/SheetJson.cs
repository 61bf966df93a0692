using System.Text.Json.Nodes;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets;

/// <summary>Writes a sheet back as the JSON it came from: texts as typed, absent members left out.</summary>
public static class SheetJson
{
    /// <summary>A sheet as JSON. Reading it again gives an equal sheet.</summary>
    public static JsonObject Write(Sheet sheet) => Compact(
        ("play", Text(sheet.Play.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture))),
        ("authority", Text(sheet.Authority)),
        ("edition", Text(sheet.Edition)),
        ("plan", sheet.Plan is { } plan ? new JsonArray([.. plan.Select(Text)]) : null),
        ("grip", sheet.Grip is { } g
            ? Compact(("hand", Word(Words.Hands, g.Hand)), ("digits", Digits(g.Digits)), ("demonstrated", Flag(g.Demonstrated)))
            : null),
        ("ball", sheet.Ball is { } ball ? WriteBall(ball) : null),
        ("marks", sheet.Marks is { } marks ? WriteMarks(marks) : null),
        ("weights", sheet.Weights is { } w ? WriteWeights(w) : null),
        ("size", sheet.Size is { } s
            ? Compact(("diameters", Readings(s.Diameters)), ("circumference", Text(s.Circumference?.Text)))
            : null),
        ("hardness", sheet.Hardness is { } h
            ? Compact(("readings", Readings(h.Readings)), ("temperature", Text(h.Temperature?.Text)))
            : null),
        ("surface", sheet.Surface is { } r ? Compact(("roughness", Readings(r.Roughness))) : null),
        ("holes", sheet.Holes is { } holes ? new JsonArray([.. holes.Select(WriteHole)]) : null),
        ("circumstances", sheet.Circumstances is { } c
            ? Compact(("ballNumber", Number(c.BallNumber)), ("playBegan", Flag(c.PlayBegan)), ("frozen", Flag(c.Frozen)))
            : null));

    private static JsonObject WriteBall(BallIdentity ball) => Compact(
        ("maker", Text(ball.Maker)),
        ("model", Text(ball.Model)),
        ("serial", Text(ball.Serial)),
        ("listed", Word(Words.Listings, ball.Listed)),
        ("made", Text(ball.Made?.Text)),
        ("houseBall", ball.HouseBall is { } house
            ? Compact(
                ("suppliedByCentre", Flag(house.SuppliedByCentre)),
                ("shell", Word(Words.Shells, house.Shell)),
                ("differential", Text(house.Differential?.Text)),
                ("drilledForBowler", Flag(house.DrilledForBowler)))
            : null),
        ("oilAbsorption", Text(ball.OilAbsorption?.Text)),
        ("highPerformanceCore", Flag(ball.HighPerformanceCore)),
        ("declared", ball.Declared is { } declared
            ? Compact(
                ("rg", Text(declared.Rg?.Text)), ("differential", Text(declared.Differential?.Text)),
                ("intermediate", Text(declared.Intermediate?.Text)))
            : null),
        ("pin", Place(ball.Pin)),
        ("massBias", Place(ball.MassBias)),
        ("gravityMark", Place(ball.GravityMark)));

    private static JsonObject WriteMarks(Marks marks) => Compact(
        ("modelReadable", Flag(marks.ModelReadable)),
        ("serialReadable", Flag(marks.SerialReadable)),
        ("palmMarks", Number(marks.PalmMarks)),
        ("foreignMaterial", Flag(marks.ForeignMaterial)),
        ("surfacePattern", Flag(marks.SurfacePattern)));

    private static JsonObject WriteWeights(Weights weights) => Compact(
        ("gross", Text(weights.Gross?.Text)),
        ("topBottom", Text(weights.TopBottom?.Text)),
        ("leftRight", Text(weights.LeftRight?.Text)),
        ("fingerThumb", Text(weights.FingerThumb?.Text)),
        ("anyHalves", Text(weights.AnyHalves?.Text)),
        ("scaleConstant", Text(weights.ScaleConstant?.Text)));

    private static JsonObject WriteHole(Hole hole) => Compact(
        ("kind", Text(Words.Of(hole.Kind))),
        ("digit", Word(Words.Digits, hole.Digit)),
        ("in", Word(Words.Digits, hole.In)),
        ("diameter", Text(hole.Diameter?.Text)),
        ("depth", Text(hole.Depth?.Text)),
        ("depthTo", Word(Words.DepthsTo, hole.DepthTo)),
        ("position", Place(hole.Position)),
        ("pitch", hole.Pitch is { } pitch ? Compact(("south", Text(pitch.South?.Text)), ("east", Text(pitch.East?.Text))) : null),
        ("secondaryHole", Flag(hole.SecondaryHole)),
        ("device", Word(Words.Devices, hole.Device)),
        ("pieces", hole.Pieces is { } pieces
            ? new JsonArray(
                [.. pieces.Select(piece => Compact(("diameter", Text(piece.Diameter?.Text)), ("depth", Text(piece.Depth?.Text))))])
            : null));

    private static JsonObject? Place(SurfacePlace? place) => place is null ? null
        : Compact(("arc", Text(place.Arc?.Text)), ("angle", Text(place.Angle?.Text)), ("azimuth", Text(place.Azimuth?.Text)));

    private static JsonObject Compact(params (string Name, JsonNode? Value)[] members)
    {
        var written = new JsonObject();
        foreach (var (name, value) in members.Where(m => m.Value is not null))
        {
            written[name] = value;
        }

        return written;
    }

    private static JsonValue? Text(string? text) => text is null ? null : JsonValue.Create(text);

    private static JsonValue? Number(int? number) => number is { } value ? JsonValue.Create(value) : null;

    private static JsonValue? Flag(bool? flag) => flag is { } value ? JsonValue.Create(value) : null;

    private static JsonValue? Word<T>(IReadOnlyDictionary<string, T> words, T? value)
        where T : struct, Enum => value is { } known ? JsonValue.Create(words.WordOf(known)) : null;

    private static JsonArray? Digits(IReadOnlyList<Digit>? digits) =>
        digits is null ? null : new JsonArray([.. digits.Select(d => JsonValue.Create(Words.Of(d)))]);

    private static JsonArray? Readings(IReadOnlyList<Reading>? readings) =>
        readings is null ? null : new JsonArray([.. readings.Select(r => JsonValue.Create(r.Text))]);
}
