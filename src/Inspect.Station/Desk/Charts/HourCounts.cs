using Inspect.Rules.Judging;
using Inspect.Station.Prepare;

namespace Inspect.Station.Desk.Charts;

/// <summary>How many balls were measured in each hour of one day, by outcome.</summary>
/// <param name="Day">The date at the venue.</param>
/// <param name="FirstHour">The hour of the first of <paramref name="Hours"/>, 0 to 23.</param>
/// <param name="Hours">One count for each hour, without a gap.</param>
/// <param name="Squads">The squads that begin on this day.</param>
public sealed record HourCounts(DateOnly Day, int FirstHour, IReadOnlyList<HourCount> Hours, IReadOnlyList<Squad> Squads)
{
    /// <summary>Each day on which something was measured, oldest first, from its first ball or squad to its last.</summary>
    public static IReadOnlyList<HourCounts> Of(IEnumerable<CountedInspection> inspections, IReadOnlyList<Squad> squads) => inspections
        .GroupBy(inspection => DateOnly.FromDateTime(inspection.At))
        .OrderBy(day => day.Key)
        .Select(day => OfDay(day.Key, [.. day], [.. squads.Where(squad => DateOnly.FromDateTime(squad.Starts) == day.Key)]))
        .ToList();

    private static HourCounts OfDay(DateOnly day, IReadOnlyList<CountedInspection> inspections, IReadOnlyList<Squad> squads)
    {
        var hours = inspections.Select(one => one.At.Hour).Concat(squads.Select(squad => squad.Starts.Hour)).ToList();
        var first = hours.Min();
        var byHour = inspections.ToLookup(one => one.At.Hour, one => one.Outcome);
        return new HourCounts(
            day,
            first,
            [.. Enumerable.Range(first, hours.Max() - first + 1).Select(hour => new HourCount(
                hour, byHour[hour].Count(one => one == Outcome.Pass), byHour[hour].Count(one => one == Outcome.Fail),
                byHour[hour].Count(one => one == Outcome.Hold)))],
            squads);
    }
}

/// <summary>One hour's balls.</summary>
public sealed record HourCount(int Hour, int Passed, int Failed, int Held)
{
    public int All => Passed + Failed + Held;
}
