using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Rulesets;

/// <summary>The closed list of things a condition or a rule may ask of a sheet.</summary>
public enum Fact
{
    /// <summary>The weight as presented.</summary>
    Gross,

    /// <summary>The temperature at which hardness was read.</summary>
    Temperature,

    /// <summary>Whether the ball has any hole or indentation.</summary>
    Drilled,

    /// <summary>How many gripping holes and indentations there are.</summary>
    GrippingHoles,

    /// <summary>How many balance holes are declared.</summary>
    BalanceHoles,

    /// <summary>The same, an unused thumb hole counted with them.</summary>
    BalanceHolesWithUnusedThumb,

    /// <summary>Whether a thumb hole is used on every delivery.</summary>
    ThumbHoleUsed,

    /// <summary>Whether the ball has a thumb hole, in use or not; an indentation does not count.</summary>
    ThumbHole,

    /// <summary>Whether all gripping holes were shown to be usable at once with one hand.</summary>
    Demonstrated,

    /// <summary>Whether maker and model can be read.</summary>
    ModelReadable,

    /// <summary>Whether a serial can be read.</summary>
    SerialReadable,

    /// <summary>Whether foreign material was found on the surface.</summary>
    ForeignMaterial,

    /// <summary>Whether depressions or grooves were found in the surface.</summary>
    SurfacePattern,

    /// <summary>Whether the model is on the list of approved balls.</summary>
    Listed,

    /// <summary>When the ball was made.</summary>
    Made,

    /// <summary>Whether it counts as a house ball, as the edition defines one.</summary>
    HouseBall,

    /// <summary>Whether the host centre supplies the ball.</summary>
    HouseBallSuppliedByCentre,

    /// <summary>The shell of a ball that may be a house ball.</summary>
    HouseBallShell,

    /// <summary>The declared differential of a ball that may be a house ball.</summary>
    HouseBallDifferential,

    /// <summary>Whether a ball that may be a house ball was drilled for this bowler.</summary>
    HouseBallDrilledForBowler,

    /// <summary>Of one hole: whether its digit is in it on every delivery.</summary>
    DigitUsed,

    /// <summary>Of one hole: whether a second hole other than a vent lies inside it.</summary>
    SecondaryHole,

    /// <summary>Of one balance hole: what sits in it.</summary>
    Device,

    /// <summary>How long the surface takes to absorb oil.</summary>
    OilAbsorption,

    /// <summary>Whether the core counts as a high-performance one.</summary>
    HighPerformanceCore,

    /// <summary>Which of the bowler's balls it is.</summary>
    BallNumber,

    /// <summary>Whether the bowler's play had begun when it was presented.</summary>
    PlayBegan,

    /// <summary>Whether it was presented after balls may no longer be changed.</summary>
    Frozen,

    /// <summary>The maker's name.</summary>
    Maker,

    /// <summary>The model's name.</summary>
    Model,

    /// <summary>The serial as read.</summary>
    Serial,
}

/// <summary>What kind of answer a fact has, and so which tests it can have.</summary>
public enum FactKind
{
    /// <summary>Yes or no.</summary>
    Flag,

    /// <summary>A whole number.</summary>
    Count,

    /// <summary>A figure with a unit.</summary>
    Measure,

    /// <summary>One of a closed list of words.</summary>
    Word,

    /// <summary>A day, or a month or year that holds it.</summary>
    Day,

    /// <summary>A text on the ball, compared without case, accents or extra spaces.</summary>
    Text,
}

/// <summary>The names of the facts in a ruleset and the kind of answer each has.</summary>
public static class FactList
{
    /// <summary>Every fact by the name a ruleset gives it.</summary>
    public static readonly IReadOnlyDictionary<string, Fact> Names = Words.Written(
        ("gross", Fact.Gross), ("temperature", Fact.Temperature), ("drilled", Fact.Drilled), ("grippingHoles", Fact.GrippingHoles),
        ("balanceHoles", Fact.BalanceHoles), ("balanceHolesWithUnusedThumb", Fact.BalanceHolesWithUnusedThumb),
        ("thumbHoleUsed", Fact.ThumbHoleUsed), ("thumbHole", Fact.ThumbHole), ("demonstrated", Fact.Demonstrated),
        ("modelReadable", Fact.ModelReadable),
        ("serialReadable", Fact.SerialReadable), ("foreignMaterial", Fact.ForeignMaterial),
        ("surfacePattern", Fact.SurfacePattern), ("listed", Fact.Listed), ("made", Fact.Made), ("houseBall", Fact.HouseBall),
        ("houseBallSuppliedByCentre", Fact.HouseBallSuppliedByCentre), ("houseBallShell", Fact.HouseBallShell),
        ("houseBallDifferential", Fact.HouseBallDifferential), ("houseBallDrilledForBowler", Fact.HouseBallDrilledForBowler),
        ("digitUsed", Fact.DigitUsed), ("secondaryHole", Fact.SecondaryHole), ("device", Fact.Device),
        ("oilAbsorption", Fact.OilAbsorption), ("highPerformanceCore", Fact.HighPerformanceCore), ("ballNumber", Fact.BallNumber),
        ("playBegan", Fact.PlayBegan), ("frozen", Fact.Frozen), ("maker", Fact.Maker), ("model", Fact.Model),
        ("serial", Fact.Serial));

    /// <summary>What kind of answer a fact has.</summary>
    public static FactKind KindOf(Fact fact) => fact switch
    {
        Fact.Gross or Fact.Temperature or Fact.HouseBallDifferential or Fact.OilAbsorption => FactKind.Measure,
        Fact.GrippingHoles or Fact.BalanceHoles or Fact.BalanceHolesWithUnusedThumb or Fact.BallNumber => FactKind.Count,
        Fact.Listed or Fact.HouseBallShell or Fact.Device => FactKind.Word,
        Fact.Made => FactKind.Day,
        Fact.Maker or Fact.Model or Fact.Serial => FactKind.Text,
        _ => FactKind.Flag,
    };

    /// <summary>Whether the fact belongs to one hole and not to the ball.</summary>
    public static bool OfHole(Fact fact) => fact is Fact.DigitUsed or Fact.SecondaryHole or Fact.Device;

    internal static Quantity QuantityOf(Fact fact) => fact switch
    {
        Fact.Gross => Quantity.Weight,
        Fact.Temperature => Quantity.Temperature,
        Fact.OilAbsorption => Quantity.Duration,
        _ => Quantity.Length,
    };
}
