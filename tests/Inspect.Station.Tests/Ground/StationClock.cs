namespace Inspect.Station.Tests.Ground;

/// <summary>The clock of every station in the tests: it begins at one named instant whatever the date is,
/// and goes on at the usual pace.</summary>
/// <remarks>A new edition of the rules, a change of daylight saving time and midnight thus come when a test asks
/// for them and not by themselves.</remarks>
public sealed class StationClock : TimeProvider
{
    /// <summary>The date at the demo's venue: a Saturday, late in the morning.</summary>
    public static readonly DateOnly Today = new(2026, 11, 21);

    private static readonly TimeSpan Ahead = new DateTimeOffset(2026, 11, 21, 17, 0, 0, TimeSpan.Zero) - System.GetUtcNow();

    private StationClock()
    {
    }

    /// <summary>The one clock, so that a station that starts again goes on from where the last one was.</summary>
    public static StationClock Only { get; } = new();

    public override DateTimeOffset GetUtcNow() => base.GetUtcNow() + Ahead;
}
