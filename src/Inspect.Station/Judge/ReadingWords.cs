using Inspect.Rules.Judging;
using Inspect.Station.Measure;

namespace Inspect.Station.Judge;

/// <summary>A finding's reading as people say it: an imbalance has the heavier side's name instead of a sign.</summary>
public static class ReadingWords
{
    /// <summary>The reading, as in <c>1/4 oz thumb</c> for one of -1/4 oz; null where none was taken.</summary>
    public static string? Of(Finding finding)
    {
        var (path, positive, negative) = FormFields.Imbalances.FirstOrDefault(imbalance => imbalance.Path == finding.Path);
        return path is null || finding.Measured is not { Length: > 0 } measured || measured.StartsWith("0 ", StringComparison.Ordinal) ? finding.Measured
            : measured.StartsWith('-') ? $"{measured[1..]} {negative}" : $"{measured} {positive}";
    }
}
