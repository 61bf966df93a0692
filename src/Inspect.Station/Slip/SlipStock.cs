using System.Diagnostics.CodeAnalysis;

namespace Inspect.Station.Slip;

/// <summary>A paper that slips are printed on, in black only. Lengths in points of 1/72 inch.</summary>
public sealed record SlipStock
{
    private const double PointsPerMm = 72 / 25.4;

    private SlipStock(string name, double widthPt, double? heightPt, double marginPt, int dotsPerInch)
    {
        Name = name;
        WidthPt = widthPt;
        HeightPt = heightPt;
        MarginPt = marginPt;
        DotsPerInch = dotsPerInch;
    }

    /// <summary>A thermal label of 4 x 6 inches.</summary>
    public static SlipStock Label { get; } = new("label", 288, 432, 5, 203);

    /// <summary>A sheet of 105 x 148 mm from an office printer.</summary>
    public static SlipStock A6 { get; } = new("a6", 105 * PointsPerMm, 148 * PointsPerMm, 12, 300);

    /// <summary>A roll of 80 mm with 72 mm of print, cut where the slip ends.</summary>
    public static SlipStock Receipt { get; } = new("receipt", 72 * PointsPerMm, null, 1, 203);

    /// <summary>A label roll of 62 mm with 59 mm of print, cut where the slip ends.</summary>
    public static SlipStock Narrow { get; } = new("roll62", 59 * PointsPerMm, null, 1, 300);

    public static IReadOnlyList<SlipStock> All { get; } = [Label, A6, Receipt, Narrow];

    /// <summary>The name of this stock in a query: <c>label</c>, <c>a6</c>, <c>receipt</c> or <c>roll62</c>.</summary>
    public string Name { get; }

    public double WidthPt { get; }

    /// <summary>Null for a roll: the slip is as long as its content.</summary>
    public double? HeightPt { get; }

    /// <summary>The margin that the printer cannot reach, on every side.</summary>
    public double MarginPt { get; }

    /// <summary>The usual printer's resolution; another may be named when rendering.</summary>
    public int DotsPerInch { get; }

    /// <summary>Finds the stock of that name.</summary>
    public static bool TryFind(string? name, [NotNullWhen(true)] out SlipStock? stock)
    {
        stock = All.FirstOrDefault(candidate => candidate.Name == name);
        return stock is not null;
    }
}
