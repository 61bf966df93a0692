namespace Inspect.Station.Tests.Ground;

/// <summary>One station for all tests of a class that only read from it.</summary>
public sealed class SharedStation : IAsyncLifetime, IDisposable
{
    public StationFixture Station { get; } = new();

    public Task InitializeAsync() => Task.CompletedTask;

    public async Task DisposeAsync() => await Station.DisposeAsync();

    public void Dispose() => Station.Dispose();
}
