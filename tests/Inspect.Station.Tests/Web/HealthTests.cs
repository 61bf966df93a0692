using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Dapper;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;

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

    [Theory]
    [InlineData("BEFORE INSERT ON register_entry")]
    [InlineData("AFTER UPDATE ON health")]
    public async Task Get_BallCannotBeRecorded_Is503(string where)
    {
        await using var station = new StationFixture();
        using var client = await station.Client();
        var gate = station.Services.GetRequiredService<WriteGate>();
        await gate.Run(write => write.Connection.Execute(
            "INSERT INTO health (id, checked_at) VALUES (1, '2027-01-01T00:00:00.000Z'); "
                + $"CREATE TRIGGER no {where} BEGIN SELECT RAISE(ABORT, 'no'); END",
            null, write.Transaction));

        using var answer = await client.GetAsync("/health");

        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
    }

    [Fact]
    public async Task Get_ManyAtOnce_ShareOneTestWhichRecordsNothing()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();
        var gate = station.Services.GetRequiredService<WriteGate>();
        var (head, changes) = (gate.Head, gate.Changes);

        var answers = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => client.GetFromJsonAsync<JsonElement>("/health")));

        Assert.Single(answers.Select(answer => answer.GetProperty("checkedAt").GetString()).Distinct());
        Assert.Equal((head, changes), (gate.Head, gate.Changes));
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        Assert.Equal(0, connection.ExecuteScalar<long>("SELECT count(*) FROM register_entry"));
    }
}
