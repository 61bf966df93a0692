using System.Globalization;
using System.Text.RegularExpressions;
using Inspect.Rules.Readings;
using Inspect.Rules.Sheets;

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
        if (!match.Success || !int.TryParse(match.Groups["index"].Value, NumberStyles.None, CultureInfo.InvariantCulture, out var index))
        {
            return null;
        }

        return (match.Groups["list"].Value, match.Groups["member"].Value) switch
        {
            ("size.diameters", "") => sheet.Size?.Diameters?.ElementAtOrDefault(index),
            ("hardness.readings", "") => sheet.Hardness?.Readings?.ElementAtOrDefault(index),
            ("holes", ".diameter") => sheet.Holes?.ElementAtOrDefault(index)?.Diameter,
            ("holes", ".depth") => sheet.Holes?.ElementAtOrDefault(index)?.Depth,
            _ => null,
        };
    }

    [GeneratedRegex(@"^(?<list>[a-z.]+)\[(?<index>\d{1,3})\](?<member>\.[a-z]+)?$", RegexOptions.CultureInvariant)]
    private static partial Regex Indexed();
}
