using System.Buffers;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Ball;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;
using static Inspect.Sheets.Json.JsonMember;

namespace Inspect.Sheets;

/// <summary>Writes a sheet back as the JSON it came from: texts as typed, absent members left out.</summary>
public static class SheetJson
{
    private static readonly JsonMembers<SurfacePlace> Place = new(
        Said<SurfacePlace>("arc", place => place.Arc), Said<SurfacePlace>("angle", place => place.Angle),
        Said<SurfacePlace>("azimuth", place => place.Azimuth));

    private static readonly JsonMembers<BallIdentity> Ball = new(
        Text<BallIdentity>("maker", ball => ball.Maker),
        Text<BallIdentity>("model", ball => ball.Model),
        Text<BallIdentity>("serial", ball => ball.Serial),
        Word<BallIdentity, Listing>("listed", Words.Listings, ball => ball.Listed),
        Text<BallIdentity>("made", ball => ball.Made?.Text),
        Part<BallIdentity, HouseBall>("houseBall", ball => ball.HouseBall, new JsonMembers<HouseBall>(
            Flag<HouseBall>("suppliedByCentre", house => house.SuppliedByCentre),
            Word<HouseBall, Shell>("shell", Words.Shells, house => house.Shell),
            Said<HouseBall>("differential", house => house.Differential),
            Flag<HouseBall>("drilledForBowler", house => house.DrilledForBowler))),
        Said<BallIdentity>("oilAbsorption", ball => ball.OilAbsorption),
        Flag<BallIdentity>("highPerformanceCore", ball => ball.HighPerformanceCore),
        Part<BallIdentity, DeclaredFigures>("declared", ball => ball.Declared, new JsonMembers<DeclaredFigures>(
            Said<DeclaredFigures>("rg", declared => declared.Rg),
            Said<DeclaredFigures>("differential", declared => declared.Differential),
            Said<DeclaredFigures>("intermediate", declared => declared.Intermediate))),
        Part<BallIdentity, SurfacePlace>("pin", ball => ball.Pin, Place),
        Part<BallIdentity, SurfacePlace>("massBias", ball => ball.MassBias, Place),
        Part<BallIdentity, SurfacePlace>("gravityMark", ball => ball.GravityMark, Place));

    private static readonly JsonMembers<Marks> Marks = new(
        Flag<Marks>("modelReadable", marks => marks.ModelReadable),
        Flag<Marks>("serialReadable", marks => marks.SerialReadable),
        Number<Marks>("palmMarks", marks => marks.PalmMarks),
        Flag<Marks>("foreignMaterial", marks => marks.ForeignMaterial),
        Flag<Marks>("surfacePattern", marks => marks.SurfacePattern));

    private static readonly JsonMembers<Weights> Weights = new(
        Said<Weights>("gross", weights => weights.Gross),
        Said<Weights>("topBottom", weights => weights.TopBottom),
        Said<Weights>("leftRight", weights => weights.LeftRight),
        Said<Weights>("fingerThumb", weights => weights.FingerThumb),
        Said<Weights>("anyHalves", weights => weights.AnyHalves),
        Said<Weights>("scaleConstant", weights => weights.ScaleConstant));

    private static readonly JsonMembers<Hole> Hole = new(
        Text<Hole>("kind", hole => Words.Of(hole.Kind)),
        Word<Hole, Digit>("digit", Words.Digits, hole => hole.Digit),
        Word<Hole, Digit>("in", Words.Digits, hole => hole.In),
        Said<Hole>("diameter", hole => hole.Diameter),
        Said<Hole>("depth", hole => hole.Depth),
        Word<Hole, DepthTo>("depthTo", Words.DepthsTo, hole => hole.DepthTo),
        Part<Hole, SurfacePlace>("position", hole => hole.Position, Place),
        Part<Hole, HolePitch>("pitch", hole => hole.Pitch, new JsonMembers<HolePitch>(
            Said<HolePitch>("south", pitch => pitch.South), Said<HolePitch>("east", pitch => pitch.East))),
        Flag<Hole>("secondaryHole", hole => hole.SecondaryHole),
        Word<Hole, Device>("device", Words.Devices, hole => hole.Device),
        List<Hole, GripPiece>("pieces", hole => hole.Pieces, new JsonMembers<GripPiece>(
            Said<GripPiece>("diameter", piece => piece.Diameter), Said<GripPiece>("depth", piece => piece.Depth))));

    private static readonly JsonMembers<Sheet> Whole = new(
        Text<Sheet>("play", sheet => sheet.Play.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
        Text<Sheet>("authority", sheet => sheet.Authority),
        Text<Sheet>("edition", sheet => sheet.Edition),
        Texts<Sheet, string>("plan", sheet => sheet.Plan, id => id),
        Part<Sheet, Grip>("grip", sheet => sheet.Grip, new JsonMembers<Grip>(
            Word<Grip, Hand>("hand", Words.Hands, grip => grip.Hand),
            Texts<Grip, Digit>("digits", grip => grip.Digits, Words.Of),
            Flag<Grip>("demonstrated", grip => grip.Demonstrated))),
        Part<Sheet, BallIdentity>("ball", sheet => sheet.Ball, Ball),
        Part<Sheet, Marks>("marks", sheet => sheet.Marks, Marks),
        Part<Sheet, Weights>("weights", sheet => sheet.Weights, Weights),
        Part<Sheet, BallSize>("size", sheet => sheet.Size, new JsonMembers<BallSize>(
            Readings<BallSize>("diameters", size => size.Diameters),
            Said<BallSize>("circumference", size => size.Circumference),
            Text<BallSize>("diameterGauge", size => size.DiameterGauge?.Text),
            Text<BallSize>("circumferenceGauge", size => size.CircumferenceGauge?.Text))),
        Part<Sheet, HardnessTest>("hardness", sheet => sheet.Hardness, new JsonMembers<HardnessTest>(
            Readings<HardnessTest>("readings", test => test.Readings), Said<HardnessTest>("temperature", test => test.Temperature))),
        Part<Sheet, Surface>("surface", sheet => sheet.Surface, new JsonMembers<Surface>(
            Readings<Surface>("roughness", surface => surface.Roughness))),
        List<Sheet, Hole>("holes", sheet => sheet.Holes, Hole),
        Part<Sheet, Circumstances>("circumstances", sheet => sheet.Circumstances, new JsonMembers<Circumstances>(
            Number<Circumstances>("ballNumber", known => known.BallNumber),
            Flag<Circumstances>("playBegan", known => known.PlayBegan),
            Flag<Circumstances>("frozen", known => known.Frozen))));

    /// <summary>Writes a sheet as JSON. Reading it again gives an equal sheet.</summary>
    public static void Write(Utf8JsonWriter to, Sheet sheet) => Whole.Write(to, sheet, byName: false);

    /// <summary>Writes a sheet as the JSON that a record holds and that is hashed: members by their names.</summary>
    public static void Record(Utf8JsonWriter to, Sheet sheet) => Whole.Write(to, sheet, byName: true);

    /// <summary>A sheet as JSON.</summary>
    public static JsonObject Write(Sheet sheet)
    {
        var utf8 = new ArrayBufferWriter<byte>();
        using var to = new Utf8JsonWriter(utf8);
        Write(to, sheet);
        to.Flush();
        return JsonNode.Parse(utf8.WrittenSpan)!.AsObject();
    }

    private static JsonMember<T> Said<T>(string name, Func<T, Reading?> of) => Text<T>(name, value => of(value)?.Text);

    private static JsonMember<T> Readings<T>(string name, Func<T, IReadOnlyList<Reading>?> of) =>
        Texts<T, Reading>(name, of, reading => reading.Text);

    private static JsonMember<T> Word<T, TWord>(string name, IReadOnlyDictionary<string, TWord> words, Func<T, TWord?> of)
        where TWord : struct, Enum => Text<T>(name, value => of(value) is { } known ? words.WordOf(known) : null);
}
