using Inspect.Sheets.Readings;

namespace Inspect.Metrology;

/// <summary>One standard measured with an instrument: its value, how well that is known, and what the instrument showed.</summary>
/// <param name="What">What was measured, in words: "zero", "100 g weight of class M1", "ring R-2".</param>
/// <param name="Nominal">Its value, exact, in the base unit of the quantity.</param>
/// <param name="OwnError">How far the standard itself may be off, in the same unit; zero for an empty scale.</param>
/// <param name="Shown">What the instrument showed; of several readings the average is compared.</param>
public sealed record CheckedPoint(string What, decimal Nominal, decimal OwnError, IReadOnlyList<Reading> Shown);

/// <summary>The result of one point.</summary>
/// <param name="Point">The point.</param>
/// <param name="Tolerance">How far the instrument may be off there, in the base unit.</param>
/// <param name="Error">The average shown less the value of the standard, in the base unit.</param>
/// <param name="IsWithin">Whether the error is within the tolerance; an error equal to the tolerance is within.</param>
/// <param name="Sentence">The same in one sentence.</param>
public sealed record CheckFinding(CheckedPoint Point, decimal Tolerance, decimal Error, bool IsWithin, string Sentence);

/// <summary>The result of a whole check.</summary>
/// <param name="Findings">Each point, in the order in which it was measured.</param>
/// <param name="Unfit">One sentence for each standard that is too coarse for the tolerance it tests.
/// With any of these, nothing is decided.</param>
public sealed record CheckOutcome(IReadOnlyList<CheckFinding> Findings, IReadOnlyList<string> Unfit)
{
    /// <summary>Whether the instrument may be used: something was measured, the standards are
    /// good enough, and every point is within.</summary>
    public bool IsGood => IsDecided && Findings.All(finding => finding.IsWithin);

    /// <summary>Whether the check decides anything.</summary>
    public bool IsDecided => Unfit.Count == 0 && Findings.Count > 0;

    internal static CheckOutcome Of(IEnumerable<(CheckedPoint Point, decimal Tolerance)> points, Unit unit)
    {
        var all = points.ToList();
        return new CheckOutcome(
            [.. all.Select(one => Finding(one.Point, one.Tolerance, unit))],
            [.. all.Where(one => 3 * one.Point.OwnError > one.Tolerance).Select(one => TooCoarse(one.Point, one.Tolerance, unit))]);
    }

    private static CheckFinding Finding(CheckedPoint point, decimal tolerance, Unit unit)
    {
        // The sum is compared with n times the tolerance, so that no average is rounded before it is judged.
        var count = point.Shown.Count;
        var sum = point.Shown.Sum(reading => reading.Value) - (count * point.Nominal);
        var isWithin = Math.Abs(sum) <= count * tolerance;
        var error = sum / count;
        var shown = string.Join(", ", point.Shown.Select(reading => reading.Text));
        var (size, allowed) = (StatedSize.In(Math.Abs(error), unit), StatedSize.In(tolerance, unit));
        size = size == allowed && !isWithin ? StatedSize.Exactly(Math.Abs(error), unit) : size;
        var off = error == 0 ? "exactly right" : $"{size} {(error > 0 ? "high" : "low")}";
        var sentence = $"{Capital(point.What)}: shows {shown}, {(count > 1 ? "on average " : "")}{off}; up to {allowed} "
            + (isWithin ? "either way is allowed." : "either way is allowed, so this is outside.");
        return new CheckFinding(point, tolerance, error, isWithin, sentence);
    }

    private static string TooCoarse(CheckedPoint point, decimal tolerance, Unit unit) =>
        $"{Capital(point.What)} may itself be {StatedSize.In(point.OwnError, unit)} off, which is more than a third of the "
        + $"{StatedSize.In(tolerance, unit)} it is to test; use a better one.";

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
