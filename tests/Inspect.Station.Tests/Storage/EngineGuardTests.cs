using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Tests.Storage;

public sealed class EngineGuardTests
{
    [Theory]
    [InlineData("3.51.2")]
    [InlineData("3.51")]
    [InlineData("3.49.1")]
    [InlineData("3.7.0")]
    [InlineData("")]
    [InlineData(null)]
    [InlineData("new")]
    public void Require_EngineWithThePublishedFault_IsRefusedInASentence(string? version)
    {
        var error = Assert.Throws<CannotStartException>(() => EngineGuard.Require(version));

        Assert.Contains($"'{version}'", error.Message, StringComparison.Ordinal);
        Assert.Contains("3.51.3 or later", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("3.51.3")]
    [InlineData("3.52.0")]
    [InlineData("4.0.0")]
    public void Require_SoundEngine_Passes(string version) => EngineGuard.Require(version);

    [Fact]
    public void Require_EngineThatIsPinned_Passes()
    {
        using var store = new TestStore();
        using var connection = store.Database.OpenForReading();

        EngineGuard.Require(connection.ExecuteScalar<string>("SELECT sqlite_version()"));
    }
}
