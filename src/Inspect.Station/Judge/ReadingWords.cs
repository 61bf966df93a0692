using Inspect.Rules.Judging;
using Inspect.Sheets;

namespace Inspect.Station.Judge;

/// <summary>A finding's reading as people say it: an imbalance has the heavier side's name instead of a sign.</summary>
public static class ReadingWords
{
    /// <summary>The reading, as in <c>1/4 oz thumb</c> for one of -1/4 oz; null where none was taken.</summary>
    public static string? Of(Finding finding)
    {
        var words = finding.Measured?.ToString();
        return finding.Measured?.Value is not { } value || value == 0 || finding.Path is not { } path
            || Catalogue.At(path) is not { CanBeTurned: true, Sides: { } sides } ? words
            : value < 0 ? $"{words![1..].TrimStart()} {sides.Negative}" : $"{words} {sides.Positive}";
    }
}
