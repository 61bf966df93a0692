using Inspect.Ledger;
using Inspect.Station.CommandLine;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.CommandLine;

public sealed class ProgressTests
{
    [Fact]
    public void Over_LongFile_SaysThePlaceAndTheLengthAndTakesTheLineAwayAtTheEnd()
    {
        var (time, terminal) = (new SteppedTime(DateTimeOffset.UnixEpoch), new StringWriter());
        var pieces = Enumerable.Range(1, 4).Select(line => new WholeLines(line, new byte[500_000]));

        foreach (var _ in new Progress(terminal, time).Over(pieces, 2_000_000))
        {
            time.Advance(TimeSpan.FromMilliseconds(150));
        }

        Assert.Equal("\r1 of 2 MB read, 50 %\r2 of 2 MB read, 100 %\r                     \r", terminal.ToString());
    }

    [Fact]
    public void Over_ShortFile_SaysNothing()
    {
        var terminal = new StringWriter();

        Assert.Single(new Progress(terminal, new SteppedTime(DateTimeOffset.UnixEpoch)).Over([new WholeLines(1, new byte[10])], 10));

        Assert.Equal("", terminal.ToString());
    }

    [Fact]
    public void Over_InputOfUnknownLength_SaysThePlaceOnly()
    {
        var (time, terminal) = (new SteppedTime(DateTimeOffset.UnixEpoch), new StringWriter());

        foreach (var _ in new Progress(terminal, time).Over([new WholeLines(1, new byte[1_600_000_000])], null))
        {
            time.Advance(TimeSpan.FromSeconds(1));
        }

        Assert.StartsWith("\r1,600 MB read\r", terminal.ToString(), StringComparison.Ordinal);
    }
}
