using System.Globalization;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Advice;

/// <summary>A sheet as it would read after a change, so that the judge can be asked about it; such a sheet is never recorded.</summary>
internal static class PlannedSheet
{
    public static Sheet WithDepth(Sheet sheet, int index, double depthIn) =>
        WithHole(sheet, index, hole => hole with { Depth = Inches(depthIn) });

    public static Sheet WithDiameter(Sheet sheet, int index, double diameterIn) =>
        WithHole(sheet, index, hole => hole with { Diameter = Inches(diameterIn) });

    /// <summary>The sheet with one interchangeable piece of another depth or width.</summary>
    public static Sheet WithPiece(Sheet sheet, int index, int piece, double inches, bool isDepth) =>
        WithHole(sheet, index, hole => hole with
        {
            Pieces = [.. hole.Pieces!.Select((one, i) => i != piece ? one
            : isDepth ? one with { Depth = Inches(inches) } : one with { Diameter = Inches(inches) })],
        });

    /// <summary>The sheet without one hole; a digit that had no other hole is then in none.</summary>
    public static Sheet WithoutHole(Sheet sheet, int index)
    {
        var gone = sheet.Holes![index];
        List<Hole> left = [.. sheet.Holes.Where((_, i) => i != index)];
        var grip = sheet.Grip;
        if (gone is { Kind: HoleKind.Grip or HoleKind.Indentation, Digit: { } digit } && grip?.Digits is { } digits
            && !left.Exists(hole => hole.Kind is HoleKind.Grip or HoleKind.Indentation && hole.Digit == digit))
        {
            grip = grip with { Digits = [.. digits.Where(other => other != digit)] };
            left.RemoveAll(hole => hole.Kind == HoleKind.Vent && hole.In == digit);
        }

        return sheet with { Holes = left, Grip = grip };
    }

    /// <summary>The sheet with one balance reading at a value, in ounces to the hundredth.</summary>
    public static Sheet WithReading(Sheet sheet, BalanceAxis axis, decimal ounces) =>
        sheet with { Weights = axis.Put(sheet.Weights!, Ounces(ounces, Quantity.Imbalance)) };

    public static Sheet WithGross(Sheet sheet, double ounces) => ounces > 0 && sheet.Weights is { } weights
        ? sheet with { Weights = weights with { Gross = Ounces(Math.Round(Seam.ToDecimal(ounces), 2), Quantity.Weight) } }
        : sheet;

    private static Sheet WithHole(Sheet sheet, int index, Func<Hole, Hole> change) =>
        sheet with { Holes = [.. sheet.Holes!.Select((hole, i) => i == index ? change(hole) : hole)] };

    private static Reading Inches(double inches) =>
        Read(Math.Round(Seam.ToDecimal(inches), 4).ToString("0.####", CultureInfo.InvariantCulture) + " in", Quantity.Length);

    private static Reading Ounces(decimal ounces, Quantity quantity) =>
        Read(ounces.ToString("0.####", CultureInfo.InvariantCulture) + " oz", quantity);

    private static Reading Read(string text, Quantity quantity) =>
        ReadingParser.Parse(text, quantity)
            .Reading ?? throw new ArgumentOutOfRangeException(nameof(text), text, "No such reading can be planned.");
}
