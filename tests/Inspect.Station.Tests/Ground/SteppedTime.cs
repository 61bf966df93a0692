namespace Inspect.Station.Tests.Ground;

/// <summary>A clock that stands until it is moved.</summary>
public sealed class SteppedTime(DateTimeOffset start) : TimeProvider
{
    private DateTimeOffset _now = start;

    public override DateTimeOffset GetUtcNow() => _now;

    public void Advance(TimeSpan by) => _now += by;
}
