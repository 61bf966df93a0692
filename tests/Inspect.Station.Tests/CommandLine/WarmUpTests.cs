using Inspect.Station.CommandLine;

namespace Inspect.Station.Tests.CommandLine;

public sealed class WarmUpTests
{
    [Theory]
    [InlineData("http://127.0.0.1:5210", "http://127.0.0.1:5210/")]
    [InlineData("http://*:5210", "http://127.0.0.1:5210/")]
    [InlineData("http://+:5210", "http://127.0.0.1:5210/")]
    [InlineData("http://0.0.0.0:5210", "http://127.0.0.1:5210/")]
    [InlineData("http://[::]:5210", "http://[::1]:5210/")]
    [InlineData(null, null)]
    public void AddressOf_WhereAStationListens_IsReachedFromThisMachine(string? listening, string? reached) =>
        Assert.Equal(reached, WarmUp.AddressOf(listening)?.AbsoluteUri);

    [Fact]
    public async Task Run_StationThatListensToNobodyOrIsGone_Ends()
    {
        await WarmUp.Run([]);
        await WarmUp.Run(["https://127.0.0.1:1"]);
        await WarmUp.Run(["http://127.0.0.1:1"]);
    }
}
