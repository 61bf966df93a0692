using Inspect.Rules.Judging;
using Inspect.Station.Desk.Charts;
using Inspect.Station.Papers;

namespace Inspect.Station.Tests.Papers;

/// <summary>Figures of the closing report, worked out by hand.</summary>
public sealed class ClosingFiguresTests
{
    /// <summary>5 of 17 is compatible with 10 % to 56 % at 95 %: C. J. Clopper and E. S. Pearson's exact interval, Biometrika 26 (1934).
    /// None of n gives 1 - 0.025^(1/n) as its upper end, which needs no table.</summary>
    [Theory]
    [InlineData(5, 17, "10 % to 56 %")]
    [InlineData(0, 10, "0 % to 31 %")]
    [InlineData(10, 10, "69 % to 100 %")]
    public void Between_ACount_IsTheExactInterval(int count, int of, string words) =>
        Assert.Equal(words, ClosingReportPaper.Between(count, of));

    [Fact]
    public void DayAtTheTables_TwoPeopleAndABreak_HasTheRateOfTheDayAndTheMedianBall()
    {
        var day = Assert.Single(DayAtTheTables.Of(
            [At("ida", 9, 0), At("ida", 9, 4), At("ida", 9, 10), At("ida", 10, 0), At("hollis", 9, 30), At("hollis", 9, 32)]));

        // Six balls in one hour; gaps of 4, 6 and 2 minutes, and one of 50, which is a break.
        Assert.Equal((6, 5.0, 4.0), (day.Inspections, day.PerHour, day.MinutesABall));
        Assert.Equal((9, 10), (day.First.Hour, day.Last.Hour));
    }

    [Fact]
    public void DayAtTheTables_OneBall_HasNoRate()
    {
        var day = Assert.Single(DayAtTheTables.Of([At("ida", 9, 0)]));

        Assert.Equal((1, null, null), (day.Inspections, day.PerHour, day.MinutesABall));
    }

    private static CountedInspection At(string by, int hour, int minute) => new()
    {
        Number = "OPEN-0001",
        Entry = "101",
        Ball = null,
        At = new DateTime(2027, 3, 14, hour, minute, 0),
        Outcome = Outcome.Pass,
        By = by,
        Before = null,
        SupersededBy = null,
        Play = new DateOnly(2027, 3, 14),
        Under = JudgedUnder.Nothing,
        Findings = [],
        Observations = [],
    };
}
