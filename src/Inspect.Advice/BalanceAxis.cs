using Inspect.Ball;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Advice;

/// <summary>One of the three axes on which a ball is balanced, with its direction in the grip frame.</summary>
/// <param name="Quantity">What a rule calls it.</param>
/// <param name="Path">Where its reading stands in a sheet.</param>
/// <param name="Unit">The direction of a positive reading.</param>
/// <param name="Name">What an inspector calls it.</param>
/// <param name="Positive">The side of a positive reading.</param>
/// <param name="Negative">The side of a negative one.</param>
public sealed record BalanceAxis(RuleQuantity Quantity, string Path, Vector Unit, string Name, string Positive, string Negative)
{
    /// <summary>Left or right; a positive reading is heavier on the right.</summary>
    public static readonly BalanceAxis Side = new(RuleQuantity.LeftRight, "weights.leftRight", Vector.UnitX, "side", "right", "left");

    /// <summary>Finger or thumb; a positive reading is heavier on the finger side.</summary>
    public static readonly BalanceAxis Finger =
        new(RuleQuantity.FingerThumb, "weights.fingerThumb", Vector.UnitY, "finger and thumb", "finger", "thumb");

    /// <summary>Top or bottom; a positive reading is heavier on top.</summary>
    public static readonly BalanceAxis Top =
        new(RuleQuantity.TopBottom, "weights.topBottom", Vector.UnitZ, "top and bottom", "top", "bottom");

    /// <summary>All three, in the order of the grip frame.</summary>
    public static readonly IReadOnlyList<BalanceAxis> All = [Side, Finger, Top];

    /// <summary>The reading of this axis on a sheet.</summary>
    public Reading? On(Weights? weights) => Quantity switch
    {
        RuleQuantity.LeftRight => weights?.LeftRight,
        RuleQuantity.FingerThumb => weights?.FingerThumb,
        _ => weights?.TopBottom,
    };

    /// <summary>The same weights with another reading on this axis.</summary>
    public Weights Put(Weights weights, Reading reading) => Quantity switch
    {
        RuleQuantity.LeftRight => weights with { LeftRight = reading },
        RuleQuantity.FingerThumb => weights with { FingerThumb = reading },
        _ => weights with { TopBottom = reading },
    };
}
