using Inspect.Ball;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Advice;

/// <summary>One of the three axes on which a ball is balanced, with its direction in the grip frame.</summary>
/// <param name="Member">The member of the sheet that holds its reading.</param>
/// <param name="Unit">The direction of a positive reading.</param>
/// <param name="Name">What an inspector calls it.</param>
/// <param name="On">The reading of this axis on a sheet.</param>
/// <param name="Put">The same weights with another reading on this axis.</param>
public sealed record BalanceAxis(SheetMember Member, Vector Unit, string Name, Func<Weights?, Reading?> On,
    Func<Weights, Reading, Weights> Put)
{
    /// <summary>Left or right; a positive reading is heavier on the right.</summary>
    public static readonly BalanceAxis Side = new(
        Catalogue.Of(RuleQuantity.LeftRight), Vector.UnitX, "side", weights => weights?.LeftRight,
        (weights, reading) => weights with { LeftRight = reading });

    /// <summary>Finger or thumb; a positive reading is heavier on the finger side.</summary>
    public static readonly BalanceAxis Finger = new(
        Catalogue.Of(RuleQuantity.FingerThumb), Vector.UnitY, "finger and thumb", weights => weights?.FingerThumb,
        (weights, reading) => weights with { FingerThumb = reading });

    /// <summary>Top or bottom; a positive reading is heavier on top.</summary>
    public static readonly BalanceAxis Top = new(
        Catalogue.Of(RuleQuantity.TopBottom), Vector.UnitZ, "top and bottom", weights => weights?.TopBottom,
        (weights, reading) => weights with { TopBottom = reading });

    /// <summary>All three, in the order of the grip frame.</summary>
    public static readonly IReadOnlyList<BalanceAxis> All = [Side, Finger, Top];

    /// <summary>What a rule calls it.</summary>
    public RuleQuantity Quantity => Member.Rule!.Quantity;

    /// <summary>The path of its reading in a sheet.</summary>
    public string Path => Member.Path;

    /// <summary>The side of a positive reading.</summary>
    public string Positive => Member.Sides!.Positive;

    /// <summary>The side of a negative one.</summary>
    public string Negative => Member.Sides!.Negative;
}
