using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace Inspect.Benchmarks.Starting;

/// <summary>The smallest program of the same kind: one route that reads one row of a store.</summary>
internal static class BareProgram
{
    public static async Task Run(string url, string folder)
    {
        var builder = WebApplication.CreateBuilder();
        builder.WebHost.UseUrls(url);
        builder.Logging.ClearProviders();
        await using var app = builder.Build();
        var store = $"Data Source={Path.Combine(folder, "bare.db")}";
        Execute("CREATE TABLE IF NOT EXISTS kept (text TEXT) STRICT; INSERT INTO kept VALUES ('good day')");
        app.MapGet("/", () => Execute("SELECT text FROM kept LIMIT 1"));
        await app.RunAsync();

        string? Execute(string sql)
        {
            using var connection = new SqliteConnection(store);
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = sql;
            return command.ExecuteScalar() as string;
        }
    }
}
