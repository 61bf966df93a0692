namespace Inspect.Station.Tests.Ground;

/// <summary>A clock that stands until it is moved.</summary>
public sealed class SteppedTime(DateTimeOffset start) : TimeProvider
{
    private DateTimeOffset _now = start;
    private long _ticks;

    public override DateTimeOffset GetUtcNow() => _now;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override long GetTimestamp() => _ticks;

    public void Advance(TimeSpan by)
    {
        _now += by;
        _ticks += by.Ticks;
    }

    /// <summary>Sets the clock, as a person or a time server does; the time that passes is not changed by it.</summary>
    public void Set(DateTimeOffset to) => _now = to;
}
