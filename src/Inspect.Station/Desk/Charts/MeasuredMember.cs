using Inspect.Sheets.Readings;

namespace Inspect.Station.Desk.Charts;

/// <summary>The members of a sheet that hold readings, by their paths without the number of the hole or reading.</summary>
internal static class MeasuredMember
{
    /// <summary><c>holes[2].depth</c> is <c>holes.depth</c>, <c>size.diameters[0]</c> is <c>size.diameters</c>.</summary>
    public static string Of(string path)
    {
        var open = path.IndexOf('[', StringComparison.Ordinal);
        var close = path.IndexOf(']', StringComparison.Ordinal);
        return open < 0 || close < open ? path : path[..open] + path[(close + 1)..];
    }

    /// <summary>What is measured there, or null where it is nothing that has a unit.</summary>
    /// <remarks>A length may be zero here: how far diameters differ is one.</remarks>
    public static Quantity? QuantityOf(string member) => member switch
    {
        "weights.gross" => Quantity.Weight,
        "weights.topBottom" or "weights.leftRight" or "weights.fingerThumb" or "weights.anyHalves" => Quantity.Imbalance,
        "size.diameters" or "size.circumference" or "holes.diameter" or "holes.depth" => Quantity.SignedLength,
        "hardness.readings" => Quantity.Hardness,
        _ => null,
    };

    /// <summary>The words for the side below zero and the side above.</summary>
    public static (string Below, string Above)? SidesOf(string member) => member switch
    {
        "weights.topBottom" => ("bottom", "top"),
        "weights.leftRight" => ("left", "right"),
        "weights.fingerThumb" => ("thumb", "finger"),
        _ => null,
    };
}
