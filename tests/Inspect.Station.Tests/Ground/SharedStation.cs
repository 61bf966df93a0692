namespace Inspect.Station.Tests.Ground;

/// <summary>One station for all tests of a class that only read from it, or whose requests are refused.</summary>
public sealed class SharedStation : IAsyncLifetime, IDisposable
{
    private Task? _first;

    public StationFixture Station { get; } = new();

    /// <summary>The station once something was done on it, the same for every test of the class that asks for this.</summary>
    public async Task<StationFixture> After(Func<StationFixture, Task> first)
    {
        await (_first ??= first(Station));
        return Station;
    }

    public Task InitializeAsync() => Task.CompletedTask;

    public async Task DisposeAsync() => await Station.DisposeAsync();

    public void Dispose() => Station.Dispose();
}
