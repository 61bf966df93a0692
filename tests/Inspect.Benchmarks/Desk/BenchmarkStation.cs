using System.Net.Http.Json;
using Inspect.Station.Storage;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;

namespace Inspect.Benchmarks.Desk;

/// <summary>A whole station inside this process on a folder of its own: the real pipeline and store, without a network between.</summary>
internal sealed class BenchmarkStation : WebApplicationFactory<Database>
{
    private const string Passcode = "benchmark passcode";

    private readonly string _folder;

    public BenchmarkStation(string folder)
    {
        _folder = folder;
        Environment.SetEnvironmentVariable("INSPECT_DEMO_PASSCODE", Passcode);
    }

    public Task<HttpClient> SignedIn(string name) => SignedIn(this, name);

    public static async Task<HttpClient> SignedIn(WebApplicationFactory<Database> station, string name)
    {
        var client = station.CreateClient();
        using var answer = await client.PostAsJsonAsync("/api/session", new { name, passcode = Passcode });
        answer.EnsureSuccessStatusCode();
        return client;
    }

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();

        // The program lets go of its folder a moment after the host has stopped.
        for (var tries = 0; tries < 400; tries++)
        {
            try
            {
                using var hold = new FileStream(
                    Path.Combine(_folder, "station.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
                return;
            }
            catch (IOException)
            {
                await Task.Delay(25);
            }
        }
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseSetting("environment", "Production");
        builder.UseSetting("data", _folder);
        builder.UseSetting("demo", "true");
    }
}
