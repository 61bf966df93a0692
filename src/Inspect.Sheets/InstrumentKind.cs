using Inspect.Sheets.Readings;

namespace Inspect.Sheets;

/// <summary>The kinds of instruments at the table. The kind decides what an instrument can read.</summary>
public enum InstrumentKind
{
    /// <summary>Weighs the whole ball; many models weigh the imbalances too.</summary>
    Scale,

    /// <summary>Weighs imbalances only, with a scale constant of its own.</summary>
    BalanceScale,
    Caliper,
    BoreGauge,
    DepthGauge,
    Durometer,

    /// <summary>A tape that reads the ball's circumference.</summary>
    Tape,

    /// <summary>Two rings with fixed limits: a ball of the right size goes through the larger and not through the smaller.</summary>
    RingGauge,
    Thermometer,

    /// <summary>A stylus instrument that reads the roughness Ra of a surface.</summary>
    RoughnessTester,

    /// <summary>A weight of known mass, for checking scales.</summary>
    CheckWeight,

    /// <summary>A block, ring or hardness block of known value, for checking other instruments.</summary>
    CheckBlock,
}

/// <summary>The kinds of instruments: their words, their units, and what each can read for a sheet.</summary>
public static class InstrumentKinds
{
    private static readonly (InstrumentKind Kind, string Word, string Title, Quantity Quantity, Unit Unit)[] All =
    [
        (InstrumentKind.Scale, "scale", "Scale", Quantity.Weight, Unit.Ounce),
        (InstrumentKind.BalanceScale, "balance-scale", "Balance scale", Quantity.Imbalance, Unit.Ounce),
        (InstrumentKind.Caliper, "caliper", "Caliper", Quantity.Length, Unit.Inch),
        (InstrumentKind.BoreGauge, "bore-gauge", "Bore gauge", Quantity.Length, Unit.Inch),
        (InstrumentKind.DepthGauge, "depth-gauge", "Depth gauge", Quantity.Length, Unit.Inch),
        (InstrumentKind.Durometer, "durometer", "Durometer", Quantity.Hardness, Unit.ShoreD),
        (InstrumentKind.Tape, "tape", "Circumference tape", Quantity.Length, Unit.Inch),
        (InstrumentKind.RingGauge, "ring-gauge", "Ring gauge", Quantity.Length, Unit.Inch),
        (InstrumentKind.Thermometer, "thermometer", "Thermometer", Quantity.Temperature, Unit.Fahrenheit),
        (InstrumentKind.RoughnessTester, "roughness-tester", "Roughness tester", Quantity.Roughness, Unit.MicroInch),
        (InstrumentKind.CheckWeight, "check-weight", "Check weight", Quantity.Weight, Unit.Gram),
        (InstrumentKind.CheckBlock, "check-block", "Check block or ring", Quantity.Length, Unit.Inch),
    ];

    /// <summary>Every kind with its word and title, in the order of use.</summary>
    public static IEnumerable<(InstrumentKind Kind, string Word, string Title)> Words => All.Select(one => (one.Kind, one.Word, one.Title));

    /// <summary>The kinds that measure something of a ball.</summary>
    public static IEnumerable<InstrumentKind> Measuring => All.Select(one => one.Kind).Where(Measures);

    /// <summary>The word in forms, in the store and in the register.</summary>
    public static string WordOf(InstrumentKind kind) => Of(kind).Word;

    /// <summary>The name of the kind, as a heading.</summary>
    public static string TitleOf(InstrumentKind kind) => Of(kind).Title;

    /// <summary>The quantity that it reads.</summary>
    public static Quantity QuantityOf(InstrumentKind kind) => Of(kind).Quantity;

    /// <summary>The unit of a number without one in its fields.</summary>
    public static Unit UnitOf(InstrumentKind kind) => Of(kind).Unit;

    /// <summary>The kind of a word, or null.</summary>
    public static InstrumentKind? Named(string word) =>
        All.Where(one => one.Word == word).Select(one => (InstrumentKind?)one.Kind).FirstOrDefault();

    /// <summary>Whether it measures something of a ball; check weights and blocks do not.</summary>
    public static bool Measures(InstrumentKind kind) => Catalogue.All.Any(member => member.Instruments.Contains(kind));

    /// <summary>Whether it shows a number, which can be checked on a standard and studied; a ring gauge only lets a ball through.</summary>
    public static bool Shows(InstrumentKind kind) => Measures(kind) && kind != InstrumentKind.RingGauge;

    /// <summary>The kinds that can read a quantity of the rules; the one made for it comes first.</summary>
    public static IReadOnlyList<InstrumentKind> For(RuleQuantity quantity) => Catalogue.Of(quantity).Instruments;

    /// <summary>The kinds that can read the member of a sheet at a path such as
    /// <c>holes[0].depth</c>; the one made for it comes first.</summary>
    public static IReadOnlyList<InstrumentKind> For(string path) => Catalogue.At(path)?.Instruments ?? [];

    private static (InstrumentKind Kind, string Word, string Title, Quantity Quantity, Unit Unit) Of(InstrumentKind kind) =>
        All.First(one => one.Kind == kind);
}
