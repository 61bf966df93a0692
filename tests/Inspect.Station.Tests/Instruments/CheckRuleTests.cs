using System.Globalization;
using Inspect.Station.Instruments;
using Inspect.Station.Prepare;

namespace Inspect.Station.Tests.Instruments;

/// <summary>How long a check counts: by the day at the venue, or by hours. Common practice, no source.</summary>
public class CheckRuleTests
{
    // Chicago is five hours behind UTC in June.
    private static readonly Event Held = DemoEvent.On(new DateOnly(2026, 6, 10));

    [Theory]
    [InlineData(null, "2026-06-10T05:00:00Z", "2026-06-11T04:59:59Z", true)]
    [InlineData(null, "2026-06-10T05:00:00Z", "2026-06-11T05:00:00Z", false)]
    [InlineData(null, "2026-06-11T04:59:59Z", "2026-06-11T05:00:00Z", false)]
    [InlineData(4, "2026-06-10T12:00:00Z", "2026-06-10T16:00:00Z", true)]
    [InlineData(4, "2026-06-10T12:00:00Z", "2026-06-10T16:00:01Z", false)]
    [InlineData(12, "2026-06-11T03:00:00Z", "2026-06-11T09:00:00Z", true)]
    public void Counts_AroundItsEnd_IsToldApart(int? hours, string check, string now, bool counts) =>
        Assert.Equal(counts, new CheckRule(hours, false).Counts(At(check), At(now), Held));

    private static DateTimeOffset At(string text) => DateTimeOffset.Parse(text, CultureInfo.InvariantCulture);
}
