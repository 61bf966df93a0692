using System.Diagnostics.CodeAnalysis;

namespace Inspect.Station.Papers;

/// <summary>A sheet of an office printer. Lengths in points of 1/72 inch.</summary>
/// <remarks>A4 is 210 x 297 mm (ISO 216), Letter 8 1/2 x 11 in (ANSI/ASME Y14.1).</remarks>
public sealed record PaperSize
{
    private const double PointsPerMm = 72 / 25.4;

    private PaperSize(string name, double widthPt, double heightPt) => (Name, WidthPt, HeightPt) = (name, widthPt, heightPt);

    public static PaperSize A4 { get; } = new("a4", 210 * PointsPerMm, 297 * PointsPerMm);

    public static PaperSize Letter { get; } = new("letter", 612, 792);

    /// <summary>The name of this size in a query: <c>a4</c> or <c>letter</c>.</summary>
    public string Name { get; }

    public double WidthPt { get; }

    public double HeightPt { get; }

    /// <summary>Finds the size of that name. Without a name it is the usual size where the event's rules come from.</summary>
    public static bool TryFind(string? name, string authority, [NotNullWhen(true)] out PaperSize? size)
    {
        size = name switch
        {
            null or "" => authority is "us-national" or "canada" ? Letter : A4,
            "a4" => A4,
            "letter" => Letter,
            _ => null,
        };
        return size is not null;
    }
}
