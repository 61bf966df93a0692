using Inspect.Advice;
using Inspect.Sheets;
using Inspect.Sheets.Described;
using Inspect.Sheets.Form;
using Inspect.Sheets.Readings;
using Inspect.Station.Web;

namespace Inspect.Station.BeforeDrilling;

/// <summary>A plan as the address of its page holds it: what was typed for the ball, its holes and the rules. Nothing is stored.</summary>
public sealed class PlanForm
{
    /// <summary>The holes that can be planned, in the order in which they are listed.</summary>
    public static readonly IReadOnlyList<Digit> Digits = [Digit.Thumb, Digit.Middle, Digit.Ring, Digit.Index, Digit.Little];

    /// <summary>An ordinary grip in an ordinary ball, shown to begin with.</summary>
    private static readonly Dictionary<string, string> Ordinary = new(StringComparer.Ordinal)
    {
        ["size"] = "8.550",
        ["gross"] = "15-2",
        ["top"] = "3",
        ["hand"] = "right",
        ["chart"] = "thumb",
        ["thumb.diameter"] = "1 1/16",
        ["thumb.depth"] = "2 1/2",
        ["middle.diameter"] = "7/8",
        ["middle.depth"] = "1 1/2",
        ["ring.diameter"] = "7/8",
        ["ring.depth"] = "1 1/2",
    };

    // An ordinary grip's fingers lean away from its middle line; straight ones would meet inside the ball.
    private const string OrdinarySideways = "3/8";

    private static readonly Digit[] Leaning = [Digit.Middle, Digit.Ring];

    private readonly Func<string, string?> _typed;

    private PlanForm(Func<string, string?> typed, string edition)
    {
        _typed = typed;
        Edition = edition;
        Hand = Typed("hand") == Words.Of(Hand.Left) ? Hand.Left : Hand.Right;
        DiameterIn = Value("size", Quantity.Length, Unit.Inch);
        GrossOz = Value("gross", Quantity.Weight, Unit.PoundOunce);
        TopOz = Value("top", Quantity.Imbalance, Unit.Ounce);
        Chart = Words.Digits.TryGetValue(Typed("chart"), out var digit) ? digit : null;
        Sheet = ReadSheet();
        CheckBall();
    }

    /// <summary>What is wrong with what was typed.</summary>
    public Faults Faults { get; } = new();

    /// <summary>The edition by which the plan is judged.</summary>
    public string Edition { get; }

    public Hand Hand { get; }

    public double? DiameterIn { get; }

    /// <summary>The weight before drilling.</summary>
    public double? GrossOz { get; }

    /// <summary>The undrilled ball's top weight as printed on its box, towards its mark.</summary>
    public double? TopOz { get; }

    /// <summary>The hole whose depth the curves follow.</summary>
    public Digit? Chart { get; }

    /// <summary>The plan as a sheet: holes, marks and declared figures, and no readings.</summary>
    public Sheet Sheet { get; }

    /// <summary>Reads the address; one without any value is the ordinary grip.</summary>
    public static PlanForm From(IQueryCollection query, string latestEdition) => query.Count == 0
        ? new PlanForm(name => Ordinary.GetValueOrDefault(name), latestEdition)
        : new PlanForm(
            name => query[name].ToString() is { Length: > 0 } text ? text : null, query["edition"].ToString() is { Length: > 0 } named
            ? named : latestEdition);

    /// <summary>What was typed into a field, trimmed.</summary>
    public string Typed(string name) => _typed(name)?.Trim() ?? "";

    private Sheet ReadSheet() => new()
    {
        Play = DateOnly.MinValue,
        Grip = new Grip(Hand, [.. Digits.Where(IsPlanned)], true),
        Ball = new BallIdentity(null, null, null, null, null, null)
        {
            Declared = Typed("rg").Length + Typed("diff").Length == 0 ? null : new DeclaredFigures(
                Read("rg", Quantity.Length, Unit.Inch), Read("diff", Quantity.SignedLength, Unit.Inch),
                    Read("int", Quantity.SignedLength, Unit.Inch)),
            Pin = Place("pin"),
            MassBias = Place("bias"),
            GravityMark = Place("mark"),
        },
        Weights = new Weights(null, null, null, null, null) { ScaleConstant = Read("scale", Quantity.Length, Unit.Inch) },
        Size = Read("size", Quantity.Length, Unit.Inch, isQuiet: true) is { } size ? new BallSize([size], null) : null,
        Holes = [.. Digits.Where(IsPlanned).Select(ReadHole)],
    };

    private bool IsPlanned(Digit digit) => Typed($"{Words.Of(digit)}.diameter").Length + Typed($"{Words.Of(digit)}.depth").Length > 0;

    private Hole ReadHole(Digit digit)
    {
        var row = Words.Of(digit);
        foreach (var member in (string[])["diameter", "depth"])
        {
            if (Typed($"{row}.{member}").Length == 0)
            {
                Faults.Add($"{row}.{member}", $"The {row} hole has no {member}; write one, or empty its row.");
            }
        }

        return new Hole
        {
            Kind = HoleKind.Grip,
            Digit = digit,
            Diameter = Read($"{row}.diameter", Quantity.Length, Unit.Inch),
            Depth = Read($"{row}.depth", Quantity.Length, Unit.Inch),
            SecondaryHole = false,
            Position = Place(row),
            Pitch = ReadPitch(row, digit),
        };
    }

    /// <summary>Whether an ordinary grip's lean is used, because none was typed.</summary>
    public bool IsLeanAssumed(Digit digit) =>
        Leaning.Contains(digit) && Typed($"{Words.Of(digit)}.away").Length + Typed($"{Words.Of(digit)}.sideways").Length == 0;

    /// <summary>A pitch as a driller says it: the bottom away from the grip's
    /// centre, and sideways away from the grip's middle line.</summary>
    private HolePitch? ReadPitch(string row, Digit digit)
    {
        var away = Read($"{row}.away", Quantity.SignedLength, Unit.Inch);
        var sideways = IsLeanAssumed(digit) ? Parsed($"{OrdinarySideways} in", Quantity.SignedLength)
            : Read($"{row}.sideways", Quantity.SignedLength, Unit.Inch);
        if (away is null && sideways is null)
        {
            return null;
        }

        // East runs with growing azimuth: leftwards above the centre, rightwards below it. Outward on the right half is then the other way.
        var azimuth = Place(row)?.Azimuth is { } typed ? Physical.Value(typed) : CommonGrip.PlaceOf(digit, Hand)?.AzimuthDeg;
        var right = azimuth is { } degrees && Math.Cos(degrees * Math.PI / 180) > 0.01;
        var isTurned = digit != Digit.Thumb && right;
        return new HolePitch(away, sideways is null || !isTurned ? sideways : Parsed(
            (-sideways.Value / Units.MillimetresPerInch)
                .ToString("0.######", System.Globalization.CultureInfo.InvariantCulture) + " in", Quantity.SignedLength));
    }

    private SurfacePlace? Place(string row)
    {
        var (arc, azimuth) = (Read($"{row}.arc", Quantity.SignedLength, Unit.Inch), Read($"{row}.direction", Quantity.Angle, Unit.Degree));
        if (arc is null && azimuth is null)
        {
            return null;
        }

        foreach (var (missing, member) in new[] { (arc is null, "arc"), (azimuth is null && arc is { Value: not 0 }, "direction") })
        {
            if (missing && Typed($"{row}.{member}").Length == 0)
            {
                Faults.Add(
                    $"{row}.{member}", "A place needs both its distance from the grip's centre and its direction; write both or neither.");
            }
        }

        if (arc is { Value: < 0 })
        {
            Faults.Add($"{row}.arc", $"\"{arc.Text}\" is negative; write the distance, and let the direction say which way.");
        }

        return new SurfacePlace(arc, null, azimuth);
    }

    /// <summary>Reports what is impossible about the ball or a hole, at the field it belongs to.</summary>
    private void CheckBall()
    {
        foreach (var name in (string[])["size", "gross"])
        {
            if (Typed(name).Length == 0)
            {
                Faults.Add(
                    name, name == "size" ? "The ball's diameter is missing; write one such as 8.55."
                    : "The weight before drilling is missing; write one such as 15-2.");
            }
        }

        if (!Faults.AreNone)
        {
            return;
        }

        if (MeasuredBall.Of(Sheet) is not { } ball)
        {
            Faults.Add("size", $"\"{Typed("size")}\" is not the diameter of a bowling ball; write one such as 8.55.");
            return;
        }

        foreach (var (index, name, fault) in ball.Impossible)
        {
            var member =
                fault.Member[(fault.Member.LastIndexOf('.') + 1)..] switch
                {
                    "depth" => "depth",
                    "arc" or "azimuth" =>
                "arc",
                    "south" or "pitch" => "away",
                    "east" => "sideways",
                    _ => "diameter"
                };
            Faults.Add($"{Words.Of(Sheet.Holes![index].Digit!.Value)}.{member}", $"{AdviceWords.OutsideTheBall(name)} {fault.Message}");
        }

        if (GrossOz is < 64 or > 320)
        {
            Faults.Add("gross", $"\"{Typed("gross")}\" is not the weight of a bowling ball; write one from 4 to 20 lb, such as 15-2.");
        }

        if (TopOz is < -20 or > 20)
        {
            Faults.Add("top", $"\"{Typed("top")}\" is not the top weight of an undrilled ball; write one such as 3.");
        }
    }

    private double? Value(string name, Quantity quantity, Unit unit) =>
        Read(name, quantity, unit) is { } reading ? Physical.Value(reading) : null;

    private Reading? Read(string name, Quantity quantity, Unit unit, bool isQuiet = false)
    {
        if (Typed(name) is not { Length: > 0 } text)
        {
            return null;
        }

        var result = ReadingParser.Parse(text, quantity, unit);
        if (result.Refusal is { } refusal && !isQuiet && Faults.At(name) is null)
        {
            Faults.Add(name, refusal);
        }

        return result.Reading;
    }

    private static Reading Parsed(string text, Quantity quantity) => ReadingParser.Parse(text, quantity).Reading!;
}
