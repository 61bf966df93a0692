using Inspect.Rules.Judging;
using Inspect.Sheets;

namespace Inspect.Station.Judge;

/// <summary>A finding's reading as people say it: an imbalance has the heavier side's name instead of a sign.</summary>
public static class ReadingWords
{
    /// <summary>The reading, as in <c>1/4 oz thumb</c> for one of -1/4 oz; null where none was taken.</summary>
    public static string? Of(Finding finding) =>
        finding is not { Path: { } path, Measured: { Length: > 0 } measured } || measured.StartsWith("0 ", StringComparison.Ordinal)
            || Catalogue.At(path) is not { CanBeTurned: true, Sides: { } sides } ? finding.Measured
            : measured.StartsWith('-') ? $"{measured[1..]} {sides.Negative}" : $"{measured} {sides.Positive}";
}
