using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Inspect.Station.Tests.Ground;
using Microsoft.Data.Sqlite;

namespace Inspect.Station.Tests.Web;

public class HealthTests
{
    [Fact]
    public async Task Get_StoreCanBeWritten_Is200()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();

        using var answer = await client.GetAsync("/health");

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("ok", (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("status").GetString());
    }

    [Fact]
    public async Task Get_StoreCannotBeWritten_Is503()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();
        using (var connection = new SqliteConnection($"Data Source={Path.Combine(station.Folder, "inspect.db")};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "CREATE TRIGGER full BEFORE INSERT ON health BEGIN SELECT RAISE(ABORT, 'the disk is full'); END";
            command.ExecuteNonQuery();
        }

        using var answer = await client.GetAsync("/health");

        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
    }
}
