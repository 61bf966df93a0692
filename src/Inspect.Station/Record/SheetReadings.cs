using System.Globalization;
using System.Text.RegularExpressions;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Station.Record;

/// <summary>The readings of a sheet by their paths.</summary>
internal static partial class SheetReadings
{
    /// <summary>The reading at a path such as <c>holes[0].depth</c>, or null; a list's own path gives its first reading.</summary>
    public static Reading? At(Sheet sheet, string path) => path switch
    {
        "weights.gross" => sheet.Weights?.Gross,
        "weights.topBottom" => sheet.Weights?.TopBottom,
        "weights.leftRight" => sheet.Weights?.LeftRight,
        "weights.fingerThumb" => sheet.Weights?.FingerThumb,
        "weights.anyHalves" => sheet.Weights?.AnyHalves,
        "size.circumference" => sheet.Size?.Circumference,
        "size.diameters" => sheet.Size?.Diameters?.ElementAtOrDefault(0),
        "hardness.readings" => sheet.Hardness?.Readings?.ElementAtOrDefault(0),
        "hardness.temperature" => sheet.Hardness?.Temperature,
        _ => InList(sheet, path),
    };

    private static Reading? InList(Sheet sheet, string path)
    {
        var match = Indexed().Match(path);
        if (!match.Success)
        {
            return null;
        }

        var hole = sheet.Holes?.ElementAtOrDefault(Number("hole"));
        return (match.Groups["list"].Value, match.Groups["member"].Value, match.Groups["piece"].Success) switch
        {
            ("size.diameters", _, _) => sheet.Size?.Diameters?.ElementAtOrDefault(Number("index")),
            ("hardness.readings", _, _) => sheet.Hardness?.Readings?.ElementAtOrDefault(Number("index")),
            (_, "diameter", false) => hole?.Diameter,
            (_, "depth", false) => hole?.Depth,
            (_, "diameter", true) => hole?.Pieces?.ElementAtOrDefault(Number("piece"))?.Diameter,
            (_, "depth", true) => hole?.Pieces?.ElementAtOrDefault(Number("piece"))?.Depth,
            _ => null,
        };

        int Number(string group) => int.TryParse(match.Groups[group].Value, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : -1;
    }

    [GeneratedRegex(
        @"^((?<list>size\.diameters|hardness\.readings)\[(?<index>\d{1,3})\]|holes\[(?<hole>\d{1,3})\](\.pieces\[(?<piece>\d{1,3})\])?\.(?<member>diameter|depth))$",
        RegexOptions.CultureInvariant)]
    private static partial Regex Indexed();
}
