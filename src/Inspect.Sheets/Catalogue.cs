using System.Globalization;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets;

/// <summary>The one list of what a sheet can say, in the order in which an inspector works.</summary>
/// <remarks>
/// The form, labels, instruments, rules, charts and the description for programs take what they need to know of a member from here. A test
/// goes through the list from the form to the desk. The sheet's own types are <see cref="Sheet"/>, <see cref="SheetReader"/> and
/// <see cref="SheetJson"/>.
/// </remarks>
public static partial class Catalogue
{
    /// <summary>How many holes a sheet can have.</summary>
    public const int MostHoles = 24;

    /// <summary>How many readings of one quantity a sheet can have.</summary>
    public const int MostReadings = 24;

    /// <summary>How many rules a plan can name.</summary>
    public const int MostPlanned = 64;

    /// <summary>The highest count of plus marks.</summary>
    public const int MostPalmMarks = 20;

    /// <summary>How many balls a bowler can present.</summary>
    public const int MostBalls = 99;

    /// <summary>How many interchangeable pieces a hole can have.</summary>
    public const int MostPieces = 12;

    /// <summary>The marks on a ball whose places are measured, each with its name on the form and in lines.</summary>
    public static readonly IReadOnlyList<(string Path, string Label, string Line, Func<Sheet, SurfacePlace?> On)> Marks =
    [
        ("ball.pin", "Pin", "pin", sheet => sheet.Ball?.Pin),
        ("ball.massBias", "Mass-bias mark", "mass-bias mark", sheet => sheet.Ball?.MassBias),
        ("ball.gravityMark", "Centre of gravity", "mark of the centre of gravity", sheet => sheet.Ball?.GravityMark),
    ];

    /// <summary>What is gauged on the surface of the whole ball: its size, hardness and roughness.</summary>
    public static readonly IReadOnlyList<SheetMember> Gauged = [.. Size().Where(member => member.Kind == MemberKind.Reading)];

    /// <summary>What a ring gauge tells in place of a reading: that the ball goes.</summary>
    public static readonly IReadOnlyList<SheetMember> Rings = [.. Size().Where(member => member.Kind == MemberKind.GaugeLimits)];

    /// <summary>What is looked at on the surface.</summary>
    public static readonly IReadOnlyList<SheetMember> Seen = [.. Surface()];

    /// <summary>Every member.</summary>
    public static readonly IReadOnlyList<SheetMember> All =
    [
        .. Whole(), .. Grip(), .. Identity(), .. Weighed(), .. Bored(), .. Marked(), .. Gauged, .. Rings, .. Seen, .. Told(),
    ];

    /// <summary>The quantities that a rule can limit, in the order of <see cref="RuleQuantity"/>.</summary>
    public static readonly IReadOnlyList<RuleTerm> Terms =
        [.. All.Select(member => member.Rule).OfType<RuleTerm>().Distinct().OrderBy(term => term.Quantity)];

    private static readonly Dictionary<string, SheetMember> ByPath = All.ToDictionary(member => member.Path, StringComparer.Ordinal);

    private static readonly ILookup<RuleQuantity, SheetMember> ByQuantity =
        All.Where(member => member.Rule is not null).ToLookup(member => member.Rule!.Quantity);

    /// <summary>The member at a path such as <c>holes[0].depth</c>, or null. An element of a list gives the list.</summary>
    public static SheetMember? At(string path) => ByPath.GetValueOrDefault(Pattern(path));

    /// <summary>The member that a rule's quantity is read from. For a hole it is the member of the hole, not of a piece.</summary>
    public static SheetMember Of(RuleQuantity quantity) => ByQuantity[quantity].First();

    /// <summary>Every member that a rule's quantity is read from. For a hole that includes the member of its pieces.</summary>
    public static IEnumerable<SheetMember> AllOf(RuleQuantity quantity) => ByQuantity[quantity];

    /// <summary>The measured reading at a path such as <c>holes[0].depth</c>, or null. A list's path gives its first reading.</summary>
    public static Reading? Measured(Sheet sheet, string path) => At(path) is { IsMeasured: true } member
        ? member.Readings(sheet).FirstOrDefault(read => read.Path == path || (member.IsList && path == member.Path)).Reading
        : null;

    /// <summary>What a sheet says at a path, or null.</summary>
    public static object? ValueAt(Sheet sheet, string path) => At(path)?.On(sheet).FirstOrDefault(said => said.Path == path).Value;

    /// <summary>The imbalances: weighed readings whose sign is a side.</summary>
    public static IEnumerable<SheetMember> Imbalances => All.Where(member => member.CanBeTurned);

    private static IEnumerable<SheetMember> Whole() =>
    [
        Text("play", "Day of play", sheet => sheet.Play.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)) with
        {
            Kind = MemberKind.Day, IsRequired = true, Line = "day of play", Stops = 0,
        },
        Text("authority", "Authority", sheet => sheet.Authority) with { IsTyped = false },
        Text("edition", "Edition", sheet => sheet.Edition) with { IsTyped = false },
        One("plan", MemberKind.Text, "Plan", sheet => sheet.Plan) with { Most = MostPlanned, IsTyped = false },
    ];

    private static IEnumerable<SheetMember> Grip() =>
    [
        Word("grip.hand", "Hand", Words.Hands, sheet => sheet.Grip?.Hand) with { Line = "hand" },
        One("grip.digits", MemberKind.Word, "Fingers used", sheet => sheet.Grip?.Digits?.Select(Words.Of).ToList()) with
        {
            Words = [.. Words.Digits.Keys], Most = Words.Digits.Count, Line = "digits in a hole",
            Missing = "nobody wrote down which digits are in a hole on every delivery",
        },
        Flag("grip.demonstrated", "Bowler showed all holes in use", sheet => sheet.Grip?.Demonstrated) with
        {
            Line = "all holes used at once", Missing = "nobody saw all gripping holes used at once with one hand", Stops = 0,
        },
    ];

    private static IEnumerable<SheetMember> Identity() =>
    [
        Text("ball.maker", "Maker", sheet => sheet.Ball?.Maker) with { Missing = "the maker was not written down" },
        Text("ball.model", "Model", sheet => sheet.Ball?.Model) with { Missing = "the model was not written down" },
        Text("ball.serial", "Serial number", sheet => sheet.Ball?.Serial) with { Missing = "the serial was not written down" },
        Word("ball.listed", "On the approved list", Words.Listings, sheet => sheet.Ball?.Listed) with
        {
            Line = "on the approved list", Missing = "it is not known whether the ball is on the list of approved balls",
        },
        Text("ball.made", "Made", sheet => sheet.Ball?.Made?.Text) with
        {
            Kind = MemberKind.Made, Line = "date made", Missing = "it is not known well enough when the ball was made", Stops = 0,
            Rule = new RuleTerm(RuleQuantity.Made, "made", "Day made", "day the ball was made"),
        },
        Single("ball.oilAbsorption", "Oil absorption", Quantity.Duration, Unit.Minute, sheet => sheet.Ball?.OilAbsorption) with
        {
            Missing = "it is not known how long the ball takes to absorb oil", Stops = 0,
        },
        Flag("ball.highPerformanceCore", "High-performance core", sheet => sheet.Ball?.HighPerformanceCore) with
        {
            Missing = "it is not known whether the ball has a high-performance core", Stops = 0,
        },
        Single("ball.declared.rg", "Declared RG", Quantity.Length, Unit.Inch, sheet => sheet.Ball?.Declared?.Rg) with
        {
            Line = "declared RG", Stops = 0,
        },
        Single(
            "ball.declared.differential",
            "Declared differential",
            Quantity.SignedLength,
            Unit.Inch,
            sheet => sheet.Ball?.Declared?.Differential) with
        {
            Stops = 0,
        },
        Single(
            "ball.declared.intermediate",
            "Intermediate differential",
            Quantity.SignedLength,
            Unit.Inch,
            sheet => sheet.Ball?.Declared?.Intermediate) with
        {
            Line = "declared intermediate differential", Stops = 0,
        },
        House(Flag("ball.houseBall.suppliedByCentre", "House ball", sheet => sheet.Ball?.HouseBall?.SuppliedByCentre)),
        House(Word("ball.houseBall.shell", "House ball", Words.Shells, sheet => sheet.Ball?.HouseBall?.Shell)),
        House(Single(
            "ball.houseBall.differential", "House ball", Quantity.Length, Unit.Inch, sheet => sheet.Ball?.HouseBall?.Differential)),
        House(Flag("ball.houseBall.drilledForBowler", "House ball", sheet => sheet.Ball?.HouseBall?.DrilledForBowler)),
    ];

    private static IEnumerable<SheetMember> Weighed() =>
    [
        Single("weights.gross", "Gross weight", Quantity.Weight, Unit.PoundOunce, sheet => sheet.Weights?.Gross) with
        {
            Instruments = [InstrumentKind.Scale], MayBeLeftOut = 1, Line = "weight",
            Usual = new(4, 20, Unit.Pound), Missing = "the ball was not weighed",
            Rule = new RuleTerm(RuleQuantity.Gross, "gross", "Gross weight", "weight of the ball", Unit.Ounce, "gross weight"),
        },
        Imbalance("weights.topBottom", "Top or bottom", new Sides("top", "bottom"), sheet => sheet.Weights?.TopBottom) with
        {
            Missing = "top and bottom were not balanced",
            Rule = Difference(RuleQuantity.TopBottom, "topBottom", "Top or bottom", "top and bottom"),
        },
        Imbalance(
            "weights.leftRight", "Left or right", new Sides("right", "left", IsNegativeFirst: true), sheet => sheet.Weights?.LeftRight) with
        {
            Missing = "left and right were not balanced",
            Rule = Difference(RuleQuantity.LeftRight, "leftRight", "Left or right", "left and right"),
        },
        Imbalance("weights.fingerThumb", "Finger or thumb", new Sides("finger", "thumb"), sheet => sheet.Weights?.FingerThumb) with
        {
            Missing = "finger and thumb side were not balanced",
            Rule = Difference(RuleQuantity.FingerThumb, "fingerThumb", "Finger or thumb", "finger and thumb side"),
        },
        Single("weights.anyHalves", "Any two halves", Quantity.Imbalance, Unit.Ounce, sheet => sheet.Weights?.AnyHalves) with
        {
            Instruments = [InstrumentKind.BalanceScale, InstrumentKind.Scale], Stops = 0, Line = "any two halves", Usual = MostImbalance,
            Missing = "the balance between any two halves was not measured",
            Rule = new RuleTerm(RuleQuantity.AnyHalves, "anyHalves", "Any two halves", "difference between any two halves", Unit.Ounce),
        },
        Single(
            "weights.scaleConstant",
            "Constant of the balance scale",
            Quantity.Length,
            Unit.Inch,
            sheet => sheet.Weights?.ScaleConstant) with
        {
            Line = "constant of the balance scale", Stops = 0,
        },
    ];

    private static IEnumerable<SheetMember> Bored() =>
    [
        One("holes", MemberKind.Objects, "Holes", sheet => null) with
        {
            Most = MostHoles, Missing = "nobody wrote down which holes the ball has",
        },
        HoleWord("kind", "Kind of hole", Words.HoleKinds, hole => hole.Kind) with { IsRequired = true },
        HoleWord("digit", "Digit", Words.Digits, hole => hole.Digit) with { Missing = "nobody wrote down which digit this hole is for" },
        HoleWord("in", "Hole it lies in", Words.Digits, hole => hole.In) with
        {
            Missing = "nobody wrote down which gripping hole this vent lies in",
        },
        OfHole("diameter", MemberKind.Reading, "Diameter", hole => hole.Diameter) with
        {
            Quantity = Quantity.Length, Unit = Unit.Inch, Instruments = Gauges(InstrumentKind.BoreGauge), MayBeLeftOut = 1,
            Usual = WidestHole,
            Missing = NoDiameter, Rule = Diameter,
        },
        OfHole("depth", MemberKind.Reading, "Depth", hole => hole.Depth) with
        {
            Quantity = Quantity.Length, Unit = Unit.Inch, Instruments = Gauges(InstrumentKind.DepthGauge), MayBeLeftOut = 1,
            Usual = DeepestHole,
            Missing = NoDepth, Rule = Depth,
        },
        HoleWord("depthTo", "Depth read from", Words.DepthsTo, hole => hole.DepthTo),
        .. Place("holes[].position", "Position", hole => hole.Position),
        OfHole("pitch.south", MemberKind.Reading, "Pitch, forward or reverse", hole => hole.Pitch?.South) with
        {
            Quantity = Quantity.SignedLength, Unit = Unit.Inch, Sides = new Sides("reverse", "forward", IsNegativeFirst: true),
        },
        OfHole("pitch.east", MemberKind.Reading, "Pitch, left or right", hole => hole.Pitch?.East) with
        {
            Quantity = Quantity.SignedLength, Unit = Unit.Inch,
        },
        OfHole("secondaryHole", MemberKind.Flag, "Second hole", hole => hole.SecondaryHole) with
        {
            Missing = "nobody looked whether a second hole lies inside this one",
        },
        HoleWord("device", "What sits in it", Words.Devices, hole => hole.Device) with
        {
            Missing = "nobody wrote down what sits in the balance hole",
        },
        OfHole("pieces", MemberKind.Objects, "Pieces", hole => null) with { Most = MostPieces },
        OfPiece("diameter", "Diameter", piece => piece.Diameter) with
        {
            Instruments = Gauges(InstrumentKind.BoreGauge), Missing = NoDiameter, Rule = Diameter, Usual = WidestHole,
        },
        OfPiece("depth", "Depth", piece => piece.Depth) with
        {
            Instruments = Gauges(InstrumentKind.DepthGauge), Missing = NoDepth, Rule = Depth, Usual = DeepestHole,
        },
    ];

    private static IEnumerable<SheetMember> Marked() => Marks.SelectMany(mark => Mark(mark.Path, mark.Label, mark.Line, mark.On));

    private static IEnumerable<SheetMember> Size() =>
    [
        List("size.diameters", "Diameter", Quantity.Length, Unit.Inch, sheet => sheet.Size?.Diameters) with
        {
            Instruments = [InstrumentKind.Caliper], Fields = ["Diameter", "Diameter, turned", "Diameter 3", "Diameter 4"],
            Stops = 2, Open = 2, MayBeLeftOut = 2,
            Line = "diameters", Usual = new(8, 9, Unit.Inch), Missing = "the diameter was not measured often enough",
            Rule = new RuleTerm(RuleQuantity.Diameters, "diameters", "Ball diameter", "diameter", Unit.Inch, "ball diameter"),
        },
        Single("size.circumference", "Circumference", Quantity.Length, Unit.Inch, sheet => sheet.Size?.Circumference) with
        {
            Instruments = [InstrumentKind.Tape], MayBeLeftOut = 1, Usual = new(25, 28, Unit.Inch),
            Missing = "the circumference was not measured",
            Rule = new RuleTerm(RuleQuantity.Circumference, "circumference", "Circumference", "circumference", Unit.Inch, "circumference"),
        },
        Go("size.diameterGauge", "Diameter, gauge: go", "diameter by the ring gauge", sheet => sheet.Size?.DiameterGauge),
        Go(
            "size.circumferenceGauge",
            "Circumference, gauge: go",
            "circumference by the ring gauge",
            sheet => sheet.Size?.CircumferenceGauge),
        List("hardness.readings", "Hardness", Quantity.Hardness, Unit.ShoreD, sheet => sheet.Hardness?.Readings) with
        {
            Instruments = [InstrumentKind.Durometer], Stops = 0, Open = 3, MayBeLeftOut = 1,
            Fields = ["Hardness 1", "Hardness 2", "Hardness 3", "Hardness 4", "Hardness 5"],
            Line = "hardness", Usual = new(40, 100, Unit.ShoreD), Missing = "the hardness was not read",
            Rule = new RuleTerm(RuleQuantity.Hardness, "hardness", "Hardness", "hardness", Unit.ShoreD, "hardness"),
        },
        Single("hardness.temperature", "Temperature", Quantity.Temperature, Unit.Fahrenheit, sheet => sheet.Hardness?.Temperature) with
        {
            Instruments = [InstrumentKind.Thermometer], Stops = 0, Usual = new(32, 110, Unit.Fahrenheit),
            Line = "temperature at the hardness reading",
            Missing = "the temperature of the hardness reading was not written down",
        },
        List("surface.roughness", "Roughness Ra", Quantity.Roughness, Unit.MicroInch, sheet => sheet.Surface?.Roughness) with
        {
            Instruments = [InstrumentKind.RoughnessTester],
            Fields = ["Roughness Ra 1", "Roughness Ra 2", "Roughness Ra 3", "Roughness Ra 4", "Roughness Ra 5"],
            Stops = 0, Open = 0, MayBeLeftOut = 1, Line = "roughness Ra", Usual = new(0, 400, Unit.MicroInch),
            Missing = "the roughness of the surface was not read",
            Rule = new RuleTerm(
                RuleQuantity.SurfaceRoughness, "surfaceRoughness", "Surface roughness Ra", "roughness Ra", Unit.MicroInch,
                "surface roughness"),
        },
    ];

    private static IEnumerable<SheetMember> Surface() =>
    [
        Flag("marks.modelReadable", "Maker and model readable", sheet => sheet.Marks?.ModelReadable) with
        {
            Good = "yes", Line = "maker and model can be read", Missing = "nobody looked whether maker and model can be read",
        },
        Flag("marks.serialReadable", "Serial readable", sheet => sheet.Marks?.SerialReadable) with
        {
            Good = "yes", Line = "serial can be read", Missing = "nobody looked whether a serial can be read",
        },
        Count("marks.palmMarks", "Plus (+) marks near the palm", (0, MostPalmMarks), sheet => sheet.Marks?.PalmMarks) with
        {
            Line = "plus marks at the palm", Missing = "nobody counted the plus marks near the palm centre", Stops = 0,
        },
        Flag("marks.foreignMaterial", "Foreign material", sheet => sheet.Marks?.ForeignMaterial) with
        {
            Good = "no", Line = "foreign material", Missing = "nobody looked for foreign material on the surface",
        },
        Flag("marks.surfacePattern", "Grooves or depressions", sheet => sheet.Marks?.SurfacePattern) with
        {
            Good = "no", Line = "depressions or grooves", Missing = "nobody looked for depressions or grooves in the surface",
        },
    ];

    private static IEnumerable<SheetMember> Told() =>
    [
        Count("circumstances.ballNumber", "The bowler's squad", (1, MostBalls), sheet => sheet.Circumstances?.BallNumber) with
        {
            Missing = "it is not known which of the bowler's balls this is", IsTyped = false,
        },
        Flag("circumstances.playBegan", "The bowler's squad", sheet => sheet.Circumstances?.PlayBegan) with
        {
            Missing = "it is not known whether play had begun", IsTyped = false,
        },
        Flag("circumstances.frozen", "The bowler's squad", sheet => sheet.Circumstances?.Frozen) with
        {
            Missing = "it is not known whether balls could still be changed", IsTyped = false,
        },
    ];
}
