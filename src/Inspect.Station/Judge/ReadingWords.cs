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
        var words = finding.Measured?.ToString();
        return path is null || finding.Measured?.Value is not { } value || value == 0 ? words
            : value < 0 ? $"{words![1..].TrimStart()} {negative}" : $"{words} {positive}";
    }
}
