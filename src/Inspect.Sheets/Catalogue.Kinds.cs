using System.Text;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets;

/// <content>How a member of each kind is listed, and how a path finds it.</content>
public static partial class Catalogue
{
    private const string NoDiameter = "the diameter of this hole was not measured";
    private const string NoDepth = "the depth of this hole was not measured";

    private static UsualRange MostImbalance => new(0, 8, Unit.Ounce);

    private static UsualRange WidestHole => new(0, 2, Unit.Inch);

    private static UsualRange DeepestHole => new(0, 5, Unit.Inch);

    private static RuleTerm Diameter =>
        new(RuleQuantity.HoleDiameter, "holeDiameter", "Hole diameter", "diameter", Unit.Inch, "hole diameter");

    private static RuleTerm Depth => new(RuleQuantity.HoleDepth, "holeDepth", "Hole depth", "depth", Unit.Inch, "hole depth");

    private static SheetMember One(string path, MemberKind kind, string label, Func<Sheet, object?> value) =>
        new() { Path = path, Kind = kind, Label = label, On = sheet => [new Said(path, value(sheet))] };

    private static SheetMember Text(string path, string label, Func<Sheet, string?> value) => One(path, MemberKind.Text, label, value);

    private static SheetMember Flag(string path, string label, Func<Sheet, bool?> value) =>
        One(path, MemberKind.Flag, label, sheet => value(sheet));

    private static SheetMember Count(string path, string label, (int, int) range, Func<Sheet, int?> value) =>
        One(path, MemberKind.Count, label, sheet => value(sheet)) with { Range = range };

    private static SheetMember Word<T>(string path, string label, IReadOnlyDictionary<string, T> words, Func<Sheet, T?> value)
        where T : struct, Enum =>
        One(path, MemberKind.Word, label, sheet => value(sheet) is { } known ? words.WordOf(known) : null) with { Words = [.. words.Keys] };

    private static SheetMember Single(string path, string label, Quantity quantity, Unit unit, Func<Sheet, Reading?> value) =>
        One(path, MemberKind.Reading, label, value) with { Quantity = quantity, Unit = unit };

    private static SheetMember List(
        string path, string label, Quantity quantity, Unit unit, Func<Sheet, IReadOnlyList<Reading>?> values) => new()
        {
            Path = path,
            Kind = MemberKind.Reading,
            Label = label,
            Quantity = quantity,
            Unit = unit,
            Most = MostReadings,
            On = sheet => (values(sheet) ?? []).Select((reading, i) => new Said(FormattableString.Invariant($"{path}[{i}]"), reading)),
        };

    private static SheetMember Go(string path, string label, string line, Func<Sheet, GaugeLimits?> value) =>
        One(path, MemberKind.GaugeLimits, label, value) with
        {
            Quantity = Quantity.Length,
            Unit = Unit.Inch,
            Instruments = [InstrumentKind.RingGauge],
            Line = line,
            Stops = 0,
            Missing = "the ball was not put through the ring gauge",
        };

    private static SheetMember Imbalance(string path, string label, Sides sides, Func<Sheet, Reading?> value) =>
        Single(path, label, Quantity.Imbalance, Unit.Ounce, value) with
        {
            Sides = sides,
            Instruments = [InstrumentKind.BalanceScale, InstrumentKind.Scale],
            MayBeLeftOut = 1,
            Usual = MostImbalance,
            Line = $"{sides.Positive} (+) or {sides.Negative} (-) weight",
        };

    private static RuleTerm Difference(RuleQuantity quantity, string word, string title, string sides) =>
        new(quantity, word, title, $"difference between {sides}, either way", Unit.Ounce, "imbalances");

    private static SheetMember House(SheetMember member) =>
        member with { Missing = "it is not fully known whether this is a house ball", Stops = 0 };

    private static InstrumentKind[] Gauges(InstrumentKind madeForIt) => [madeForIt, InstrumentKind.Caliper];

    private static SheetMember OfHole(string name, MemberKind kind, string label, Func<Hole, object?> value) => new()
    {
        Path = $"holes[].{name}",
        Kind = kind,
        Label = label,
        Stops = 0,
        On = sheet => (sheet.Holes ?? []).Select((hole, i) => new Said(FormattableString.Invariant($"holes[{i}].{name}"), value(hole), i)),
    };

    private static SheetMember HoleWord<T>(string name, string label, IReadOnlyDictionary<string, T> words, Func<Hole, T?> value)
        where T : struct, Enum =>
        OfHole(name, MemberKind.Word, label, hole => value(hole) is { } known ? words.WordOf(known) : null) with
        {
            Words = [.. words.Keys],
        };

    private static SheetMember OfPiece(string name, string label, Func<GripPiece, Reading?> value) => new()
    {
        Path = $"holes[].pieces[].{name}",
        Kind = MemberKind.Reading,
        Label = label,
        Quantity = Quantity.Length,
        Unit = Unit.Inch,
        Stops = 0,
        On = sheet => (sheet.Holes ?? []).SelectMany((hole, i) => (hole.Pieces ?? [])
            .Select((piece, j) => new Said(FormattableString.Invariant($"holes[{i}].pieces[{j}].{name}"), value(piece), i, j))),
    };

    private static IEnumerable<SheetMember> Place(string path, string label, Func<Hole, SurfacePlace?> place) => Place(
        path, label, (name, said, part) => OfHole(name["holes[].".Length..], MemberKind.Reading, said, hole => part(place(hole))));

    private static IEnumerable<SheetMember> Mark(string path, string label, string line, Func<Sheet, SurfacePlace?> place) => Place(
        path,
        label,
        (name, said, part) => One(name, MemberKind.Reading, said, sheet => part(place(sheet))) with { Stops = 0, Line = line });

    /// <summary>A place is two members: its distance (as an arc or as an angle) and its direction.</summary>
    private static IEnumerable<SheetMember> Place(
        string path, string label, Func<string, string, Func<SurfacePlace?, Reading?>, SheetMember> member) =>
    [
        member($"{path}.arc", label, place => place?.Arc) with { Quantity = Quantity.SignedLength, Unit = Unit.Inch },
        member($"{path}.angle", label, place => place?.Angle) with { Quantity = Quantity.Angle, Unit = Unit.Degree },
        member($"{path}.azimuth", $"{label}, direction", place => place?.Azimuth) with { Quantity = Quantity.Angle, Unit = Unit.Degree },
    ];

    /// <summary>A path without its numbers: <c>holes[].pieces[].depth</c> for <c>holes[2].pieces[0].depth</c>, and
    /// <c>size.diameters</c> for <c>size.diameters[1]</c>.</summary>
    private static string Pattern(string path)
    {
        if (!path.Contains('[', StringComparison.Ordinal))
        {
            return path;
        }

        var pattern = new StringBuilder(path.Length);
        foreach (var sign in path)
        {
            if (!char.IsAsciiDigit(sign) || pattern.Length == 0 || pattern[^1] != '[')
            {
                pattern.Append(sign);
            }
        }

        return pattern.ToString() is var whole && whole.EndsWith("[]", StringComparison.Ordinal) ? whole[..^2] : whole;
    }
}
