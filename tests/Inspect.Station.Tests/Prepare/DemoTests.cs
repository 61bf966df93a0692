using Inspect.Station.Access;
using Inspect.Station.CommandLine;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Prepare;

public class DemoTests
{
    [Fact]
    public async Task Seed_AMonthLater_KeepsTheEventAndStretchesItToToday()
    {
        await using var station = new StationFixture();
        var events = station.Services.GetRequiredService<Events>();
        var before = events.Find(DemoEvent.Id)!;
        var later = new SteppedTime(StationClock.Only.GetUtcNow().AddDays(30));

        await Demo(station, later, station.Passcode).Seed();

        var after = events.Find(DemoEvent.Id)!;
        Assert.Equal(before.From, after.From);
        Assert.True(after.Includes(DemoEvent.Today(later)));
        Assert.Equal(24, events.EntriesOf(DemoEvent.Id).Count);
    }

    [Fact]
    public async Task Seed_WithANewPasscode_VoidsTheOldOneAndItsCookies()
    {
        await using var station = new StationFixture();
        var signIns = station.Services.GetRequiredService<SignIns>();
        var before = signIns.Check("director", station.Passcode)!;

        await Demo(station, StationClock.Only, "quite another one").Seed();

        Assert.Null(signIns.Check("director", station.Passcode));
        Assert.Equal(before.Person, signIns.Check("director", "quite another one")!.Person);
        Assert.False(signIns.IsStillGood(before));
    }

    [Fact]
    public async Task Passcode_NotGiven_IsAnotherAtEachStart()
    {
        await using var station = new StationFixture();

        Assert.NotEqual(Demo(station, StationClock.Only, null).Passcode, Demo(station, StationClock.Only, null).Passcode);
    }

    private static Demo Demo(StationFixture station, TimeProvider time, string? passcode)
    {
        var services = station.Services;
        var options = services.GetRequiredService<StationOptions>() with { DemoPasscode = passcode };
        return new Demo(
            options, services.GetRequiredService<WriteGate>(), services.GetRequiredService<Events>(),
            services.GetRequiredService<SignIns>(), time, services);
    }
}
