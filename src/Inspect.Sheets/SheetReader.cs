using System.Text.Json;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets;

/// <summary>Reads a sheet from strict JSON and reports every fault at once, each with its path.</summary>
public static class SheetReader
{
    /// <summary>The sheet in <paramref name="utf8"/>, or null when it has faults; they are added to the list.</summary>
    /// <param name="utf8">One JSON object.</param>
    /// <param name="faults">Where faults are collected.</param>
    /// <param name="defaults">What an event sets. The sheet may leave these out; one that differs is a fault.</param>
    public static Sheet? Read(ReadOnlyMemory<byte> utf8, List<Fault> faults, SheetDefaults? defaults = null)
    {
        var before = faults.Count;
        var sheet = StrictJson.Read(utf8, faults) is { } members ? Read(members, faults, defaults) : null;
        return faults.Count == before ? sheet : null;
    }

    /// <summary>Reads a sheet that is part of a larger document, which is parsed; paths begin at the sheet.</summary>
    public static Sheet? Read(JsonElement sheet, List<Fault> faults) =>
        StrictObject.From(sheet, StrictJson.Root, faults) is { } members ? Read(members, faults) : null;

    /// <summary>Reads a sheet that is part of a larger document.</summary>
    public static Sheet? Read(StrictObject members, List<Fault> faults, SheetDefaults? defaults = null)
    {
        var before = faults.Count;
        members.Require("play");
        var sheet = new Sheet
        {
            Play = members.Day("play") ?? default,
            Authority = members.Text("authority"),
            Edition = members.Text("edition"),
            Plan = Plan(members),
            Grip = members.Object("grip") is { } grip ? ReadGrip(grip) : null,
            Ball = members.Object("ball") is { } ball ? ReadBall(ball) : null,
            Marks = members.Object("marks") is { } marks ? ReadMarks(marks) : null,
            Weights = members.Object("weights") is { } weights ? ReadWeights(weights) : null,
            Size = members.Object("size") is { } size ? ReadSize(size) : null,
            Hardness = members.Object("hardness") is { } hardness ? ReadHardness(hardness) : null,
            Surface = members.Object("surface") is { } surface ? ReadSurface(surface) : null,
            Holes = members.Objects("holes", Catalogue.MostHoles)?.Select(ReadHole).ToList(),
            Circumstances = members.Object("circumstances") is { } circumstances ? ReadCircumstances(circumstances) : null,
        };
        members.Close();
        sheet = WithDefaults(members, sheet, defaults);
        return faults.Count == before ? sheet : null;
    }

    private static Sheet WithDefaults(StrictObject members, Sheet sheet, SheetDefaults? defaults)
    {
        if (defaults is null)
        {
            if (sheet.Authority is null && sheet.Edition is null && !members.Has("authority") && !members.Has("edition"))
            {
                members.Refuse("authority", "Neither an authority nor an edition is named; give one of them, such as \"us-national\".");
            }
            else if (sheet is { Authority: { } authority, Edition: { } edition }
                && !edition.StartsWith(authority + "/", StringComparison.Ordinal))
            {
                members.Refuse("edition", $"\"{edition}\" is not an edition of \"{authority}\"; name one of them only.");
            }

            return sheet;
        }

        Same(members, "authority", sheet.Authority, defaults.Authority);
        Same(members, "edition", sheet.Edition, defaults.Edition);
        if (sheet.Plan is { } plan && !(defaults.Plan is { } expected && plan.ToHashSet().SetEquals(expected)))
        {
            members.Refuse("plan", "The event decides which rules are checked, and this list differs; leave it out.");
        }

        return sheet with { Authority = defaults.Authority, Edition = defaults.Edition, Plan = defaults.Plan };
    }

    private static void Same(StrictObject members, string name, string? given, string? expected)
    {
        if (given is not null && given != expected)
        {
            members.Refuse(name, expected is null
                ? $"The event sets no {name}, and the sheet says \"{given}\"; leave it out."
                : $"The event uses \"{expected}\", and the sheet says \"{given}\"; leave it out.");
        }
    }

    private static IReadOnlyList<string>? Plan(StrictObject members)
    {
        var plan = members.Texts("plan", Catalogue.MostPlanned);
        if (plan is { Count: 0 })
        {
            members.Refuse("plan", "The plan names no rule; leave it out to check every rule.");
        }
        else if (plan is not null && plan.Distinct().Count() != plan.Count)
        {
            members.Refuse("plan", "The plan names a rule twice; name each once.");
        }

        return plan;
    }

    private static Grip ReadGrip(StrictObject members)
    {
        var grip = new Grip(members.Choice("hand", Words.Hands), ReadDigits(members), members.Flag("demonstrated"));
        members.Close();
        return grip;
    }

    private static IReadOnlyList<Digit>? ReadDigits(StrictObject members)
    {
        var digits = members.Choices("digits", Words.Digits, 5);
        for (var i = 1; i < digits?.Count; i++)
        {
            if (digits.Take(i).Contains(digits[i]))
            {
                members.Refuse($"digits[{i}]", $"\"{Words.Of(digits[i])}\" is named twice; name each digit once.");
            }
        }

        return digits;
    }

    private static BallIdentity ReadBall(StrictObject members)
    {
        var ball = new BallIdentity(
            members.Text("maker"),
            members.Text("model"),
            members.Text("serial"),
            members.Choice("listed", Words.Listings),
            ReadMade(members),
            members.IsNull("houseBall") ? null : members.Object("houseBall") is { } house ? ReadHouseBall(house) : null,
            members.Reading("oilAbsorption", Quantity.Duration),
            members.Flag("highPerformanceCore"))
        {
            Declared = PlacesReader.Declared(members),
            Pin = PlacesReader.Place(members, "pin"),
            MassBias = PlacesReader.Place(members, "massBias"),
            GravityMark = PlacesReader.Place(members, "gravityMark"),
        };
        members.Close();
        return ball;
    }

    private static MadeOn? ReadMade(StrictObject members)
    {
        if (members.Text("made") is not { } text)
        {
            return null;
        }

        if (!MadeOn.TryParse(text, out var made))
        {
            members.Refuse("made", $"\"{text}\" is not a year, month or day; write 2024, 2024-05 or 2024-05-17.");
        }

        return made;
    }

    private static HouseBall ReadHouseBall(StrictObject members)
    {
        var house = new HouseBall(
            members.Flag("suppliedByCentre"),
            members.Choice("shell", Words.Shells),
            members.Reading("differential", Quantity.Length),
            members.Flag("drilledForBowler"));
        members.Close();
        return house;
    }

    private static Marks ReadMarks(StrictObject members)
    {
        var marks = new Marks(
            members.Flag("modelReadable"),
            members.Flag("serialReadable"),
            members.Whole("palmMarks", 0, Catalogue.MostPalmMarks),
            members.Flag("foreignMaterial"),
            members.Flag("surfacePattern"));
        members.Close();
        return marks;
    }

    private static Weights ReadWeights(StrictObject members)
    {
        var weights = new Weights(
            members.Reading("gross", Quantity.Weight),
            members.Reading("topBottom", Quantity.Imbalance),
            members.Reading("leftRight", Quantity.Imbalance),
            members.Reading("fingerThumb", Quantity.Imbalance),
            members.Reading("anyHalves", Quantity.Imbalance))
        {
            ScaleConstant = members.Reading("scaleConstant", Quantity.Length),
        };
        members.Close();
        return weights;
    }

    private static BallSize ReadSize(StrictObject members)
    {
        var size = new BallSize(
            members.Readings("diameters", Quantity.Length, Catalogue.MostReadings),
            members.Reading("circumference", Quantity.Length))
        {
            DiameterGauge = ReadGauge(members, "diameterGauge"),
            CircumferenceGauge = ReadGauge(members, "circumferenceGauge"),
        };
        members.Close();
        return size;
    }

    private static GaugeLimits? ReadGauge(StrictObject members, string name)
    {
        if (members.Text(name) is not { } text)
        {
            return null;
        }

        var (limits, refusal) = GaugeLimits.Parse(text);
        if (refusal is not null)
        {
            members.Refuse(name, refusal);
        }

        return limits;
    }

    private static HardnessTest ReadHardness(StrictObject members)
    {
        var hardness = new HardnessTest(
            members.Readings("readings", Quantity.Hardness, Catalogue.MostReadings),
            members.Reading("temperature", Quantity.Temperature));
        members.Close();
        return hardness;
    }

    private static Surface ReadSurface(StrictObject members)
    {
        var surface = new Surface(members.Readings("roughness", Quantity.Roughness, Catalogue.MostReadings));
        members.Close();
        return surface;
    }

    private static Hole ReadHole(StrictObject members)
    {
        members.Require("kind");
        var kind = members.Choice("kind", Words.HoleKinds);
        var gripping = kind is HoleKind.Grip or HoleKind.Indentation;
        var hole = new Hole
        {
            Kind = kind ?? HoleKind.Grip,
            Digit = For(members, "digit", gripping, kind, members.Choice("digit", Words.Digits)),
            In = For(members, "in", kind == HoleKind.Vent, kind, members.Choice("in", Words.Digits)),
            Diameter = members.Reading("diameter", Quantity.Length),
            Depth = members.Reading("depth", Quantity.Length),
            DepthTo = members.Choice("depthTo", Words.DepthsTo),
            Position = PlacesReader.Place(members, "position"),
            Pitch = PlacesReader.Pitch(members),
            SecondaryHole = For(members, "secondaryHole", kind == HoleKind.Grip, kind, members.Flag("secondaryHole")),
            Device = For(members, "device", kind == HoleKind.Balance, kind, members.Choice("device", Words.Devices)),
            Pieces = ReadPieces(members),
        };
        if (kind is not (null or HoleKind.Grip) && members.Has("pieces"))
        {
            members.Refuse("pieces", $"A hole of the kind \"{Words.Of(kind.Value)}\" has no \"pieces\"; leave it out.");
        }

        members.Close();
        return hole;
    }

    private static List<GripPiece>? ReadPieces(StrictObject members)
    {
        var pieces = members.Objects("pieces", Catalogue.MostPieces);
        if (pieces is { Count: 0 })
        {
            members.Refuse("pieces", "This list names no piece; leave it out when the hole takes no interchangeable piece.");
        }

        return pieces?.Select(ReadPiece).ToList();
    }

    private static GripPiece ReadPiece(StrictObject members)
    {
        var piece = new GripPiece(members.Reading("diameter", Quantity.Length), members.Reading("depth", Quantity.Length));
        members.Close();
        return piece;
    }

    private static Circumstances ReadCircumstances(StrictObject members)
    {
        var circumstances = new Circumstances(
            members.Whole("ballNumber", 1, Catalogue.MostBalls),
            members.Flag("playBegan"),
            members.Flag("frozen"));
        members.Close();
        return circumstances;
    }

    /// <summary>The value, or null with a fault when a hole of this kind cannot have it.</summary>
    private static T? For<T>(StrictObject members, string name, bool fits, HoleKind? kind, T? value)
        where T : struct
    {
        if (kind is not null && !fits && members.Has(name))
        {
            members.Refuse(name, $"A hole of the kind \"{Words.Of(kind.Value)}\" has no \"{name}\"; leave it out.");
            return null;
        }

        return value;
    }
}

/// <summary>What an event sets for every sheet recorded in it.</summary>
/// <param name="Authority">The body whose rules apply.</param>
/// <param name="Edition">One edition for the whole event; absent means the edition in force on the day of play.</param>
/// <param name="Plan">The rules checked; absent means all.</param>
public sealed record SheetDefaults(string Authority, string? Edition = null, IReadOnlyList<string>? Plan = null);
