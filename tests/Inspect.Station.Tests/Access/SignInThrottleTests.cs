using Inspect.Station.Access;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Access;

public class SignInThrottleTests
{
    private readonly SteppedTime _time = new(new DateTimeOffset(2027, 3, 14, 9, 0, 0, TimeSpan.Zero));
    private readonly SignInThrottle _throttle;

    public SignInThrottleTests() => _throttle = new SignInThrottle(_time);

    [Fact]
    public void TryBegin_FiveFailures_TheSixthWaitsHalfAMinute()
    {
        Fail(5);

        Assert.False(_throttle.TryBegin("ida", "10.0.0.1", out var wait));
        Assert.Equal(TimeSpan.FromSeconds(30), wait);
        _time.Advance(TimeSpan.FromSeconds(29));
        Assert.False(_throttle.TryBegin("ida", "10.0.0.1", out _));
        _time.Advance(TimeSpan.FromSeconds(1));
        Assert.True(_throttle.TryBegin("ida", "10.0.0.1", out _));
    }

    [Fact]
    public void TryBegin_ClockSetBackMeanwhile_WaitsNoLonger()
    {
        Fail(5);

        _time.Set(_time.GetUtcNow().AddHours(-10));
        _time.Advance(TimeSpan.FromSeconds(30));

        Assert.True(_throttle.TryBegin("ida", "10.0.0.1", out _));
    }

    [Fact]
    public void TryBegin_EachFurtherFailure_WaitsTwiceAsLongUpToAQuarterOfAnHour()
    {
        Fail(5);
        foreach (var seconds in (int[])[30, 60, 120, 240, 480, 900, 900])
        {
            Assert.False(_throttle.TryBegin("ida", "10.0.0.1", out var wait));
            Assert.Equal(TimeSpan.FromSeconds(seconds), wait);
            _time.Advance(wait);
            Assert.True(_throttle.TryBegin("ida", "10.0.0.1", out _));
        }
    }

    [Fact]
    public void TryBegin_AfterASuccess_BeginsAnew()
    {
        Fail(4);
        _throttle.Succeeded("ida", "10.0.0.1");

        Fail(5);
    }

    [Fact]
    public void TryBegin_GuesserElsewhere_DoesNotLockTheOwnerOut()
    {
        Fail(5);

        Assert.True(_throttle.TryBegin("ida", "10.0.0.2", out _));
        Assert.True(_throttle.TryBegin("hollis", "10.0.0.1", out _));
    }

    [Fact]
    public void TryBegin_FailuresOfLongAgo_AreForgotten()
    {
        Fail(5);
        _time.Advance(TimeSpan.FromMinutes(16));

        Fail(5);
    }

    private void Fail(int times)
    {
        for (var i = 0; i < times; i++)
        {
            Assert.True(_throttle.TryBegin("ida", "10.0.0.1", out _));
        }
    }
}
