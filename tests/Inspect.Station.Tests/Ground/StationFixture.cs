using System.Net;
using System.Net.Http.Json;
using Inspect.Station.CommandLine;
using Inspect.Station.Storage;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.Mvc.Testing.Handlers;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Inspect.Station.Tests.Ground;

/// <summary>A whole station of its own for one test: real pipeline, real store in a folder of its own, in Production.</summary>
/// <remarks>
/// In memory unless <see cref="Listen"/> is called, which opens a port on 127.0.0.1 for a browser. A folder that is
/// handed in outlives the fixture, so that a second one can be started on it. Its clock is the <see cref="StationClock"/>.
/// </remarks>
public sealed class StationFixture : WebApplicationFactory<Program>
{
    private readonly string _folder;
    private readonly bool _ownsFolder;
    private readonly bool _demo;
    private readonly Dictionary<string, string> _settings;
    private bool _isListening;

    public StationFixture(bool demo = true, string? folder = null, Dictionary<string, string>? settings = null)
    {
        _demo = demo;
        _ownsFolder = folder is null;
        _folder = folder ?? NewFolder();
        _settings = settings ?? [];
        PreparedStore.CopyTo(_folder, demo);
        ClientOptions.AllowAutoRedirect = false;
    }

    /// <summary>The data folder.</summary>
    public string Folder => _folder;

    /// <summary>The passcode of both demo sign-ins.</summary>
    public string Passcode => Services.GetRequiredService<Demo>().Passcode;

    /// <summary>Every line logged: of the station's own categories from Debug on, of others as shipped.</summary>
    public LogCapture Log { get; } = new();

    /// <summary>An empty folder that nobody else uses.</summary>
    public static string NewFolder() => Directory.CreateTempSubdirectory("inspect-test-").FullName;

    /// <summary>Opens a port of its own on 127.0.0.1; the client's base address then is the real one.</summary>
    public StationFixture Listen()
    {
        _isListening = true;
        UseKestrel();
        StartServer();
        return this;
    }

    /// <summary>A client with a cookie jar, signed in as a demo sign-in when one is named. What it exchanges with the API is
    /// held against its description.</summary>
    public async Task<HttpClient> Client(string? signIn = null)
    {
        var client = CreateDefaultClient(ClientOptions.BaseAddress, new CookieContainerHandler(), new ApiDescription());
        if (signIn is not null)
        {
            using var answer = await client.PostAsJsonAsync("/api/session", new { name = signIn, passcode = Passcode });
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        }

        return client;
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseSetting("environment", "Production");
        builder.UseSetting("data", _folder);
        if (_demo)
        {
            builder.UseSetting("demo", "true");
        }

        if (_isListening)
        {
            builder.UseSetting("urls", "http://127.0.0.1:0");
        }

        // A connection that stays open would hold the file after the test.
        builder.ConfigureServices(services => services
            .AddSingleton(new Database(Path.Combine(_folder, "inspect.db"), keepsOpen: false))
            .AddSingleton<TimeProvider>(StationClock.Only)
            .AddSingleton<ILoggerProvider>(Log));
        builder.ConfigureLogging(logging => logging.AddFilter<LogCapture>("Inspect", LogLevel.Debug));
        foreach (var (name, value) in _settings)
        {
            builder.UseSetting(name, value);
        }
    }

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        await UntilFolderIsFree();
        if (_ownsFolder)
        {
            Directory.Delete(_folder, recursive: true);
        }
    }

    // The program lets go of its folder a moment after the host has stopped.
    private async Task UntilFolderIsFree()
    {
        for (var tries = 0; ; tries++)
        {
            try
            {
                using var hold = new FileStream(
                    Path.Combine(_folder, "station.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
                return;
            }
            catch (IOException) when (tries < 200)
            {
                await Task.Delay(25);
            }
        }
    }
}
