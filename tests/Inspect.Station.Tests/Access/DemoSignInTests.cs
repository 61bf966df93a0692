using Dapper;
using Inspect.Station.Access;
using Inspect.Station.CommandLine;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Access;

public sealed class DemoSignInTests
{
    /// <summary>Hashing a passcode is made slow on purpose, and the station waits for it at its start.</summary>
    [Fact]
    public async Task SignIn_OnePasscodeForBoth_IsHashedOnceAndKeptWhileItStaysTheSame()
    {
        await using var station = new StationFixture();
        var (database, signIns) = (station.Services.GetRequiredService<Database>(), station.Services.GetRequiredService<SignIns>());

        await Demo.SignIn(signIns, "another passcode");
        var hash = Assert.Single(Hashes(database));
        await Demo.SignIn(signIns, "another passcode");

        Assert.Equal([hash], Hashes(database));
        Assert.NotNull(signIns.Check(Roles.Director, "another passcode"));
        Assert.NotNull(signIns.Check(Roles.Inspector, "another passcode"));
    }

    private static List<string> Hashes(Database database)
    {
        using var connection = database.OpenForReading();
        return connection.Query<string>("SELECT DISTINCT passcode_hash FROM sign_in").AsList();
    }
}
