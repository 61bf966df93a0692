using Inspect.Station.Access;

namespace Inspect.Station.Import;

/// <summary>A row of a list with what it would do.</summary>
/// <param name="Row">The row.</param>
/// <param name="Would">What it would do, in words.</param>
public sealed record SortedRow(ImportRow Row, string Would)
{
    /// <summary>The rows of a plan that would do something and fit what is looked for: a number, a squad, or the beginnings of words of a
    /// name. In the order of the list.</summary>
    public static IReadOnlyList<SortedRow> Found(ImportPlan plan, string find)
    {
        var asked = find.Trim();
        return [.. plan.Added.Select(row => new SortedRow(row.Row, row.IsNumberedHere ? "added, next free number" : "added"))
            .Concat(plan.Changed.Select(row => new SortedRow(row.Row, $"changes entry {row.There.Number}")))
            .Concat(plan.Doubtful.Select(row => new SortedRow(row.Row, $"doubtful: {row.Why}")))
            .Where(row => asked.Length == 0 || row.Row.Number?.Equals(asked, StringComparison.OrdinalIgnoreCase) == true
                || row.Row.Squad?.Equals(asked, StringComparison.OrdinalIgnoreCase) == true || NameFold.Matches(asked, row.Row.Bowler))
            .OrderBy(row => row.Row.Row)];
    }
}
