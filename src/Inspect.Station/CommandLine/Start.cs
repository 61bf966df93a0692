using System.Data.Common;
using System.Globalization;
using System.Text.Json;
using Inspect.Station.Access;
using Inspect.Station.Import;
using Inspect.Station.Rulesets;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Connections;
using Microsoft.Extensions.Logging.Console;

namespace Inspect.Station.CommandLine;

/// <summary>Starts the station: the host, what must exist before the first
/// request, and what is printed for the person who started it.</summary>
public static class Start
{
    private const int LargestRequest = 1024 * 1024;

    /// <summary>Prints why the station does not start, and returns the exit code 1.</summary>
    public static int Refuse(string fault)
    {
        Console.Error.WriteLine(fault);
        return 1;
    }

    /// <summary>The book of rules, built in and from the folder that was named; or every fault found in it.</summary>
    public static (RulesetBook? Book, string Fault) OpenBook(StationOptions options)
    {
        var faults = new List<RulesetFault>();
        var book = RulesetBook.Open(options.RulesetsFolder, faults);
        return book?.Broken.Any() == true
            ? (null, $"A published edition was changed or is missing: {string.Join(", ", book.Broken)}. Restore it, "
                + "and publish a change as a revision or under a day of its own.")
            : (book, string.Join(Environment.NewLine, faults));
    }

    /// <summary>A host that finds its pages next to the program, wherever it is started from.</summary>
    public static WebApplicationBuilder CreateBuilder(StationOptions options)
    {
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            Args = [.. options.HostArguments],
            ContentRootPath = AppContext.BaseDirectory,
        });
        builder.WebHost.UseUrls(options.Urls);
        builder.WebHost.ConfigureKestrel(server =>
        {
            server.AddServerHeader = false;
            server.Limits.MaxRequestBodySize = LargestRequest;
        });

        // What people need to know is printed by Run to standard output; the log is for what goes wrong.
        builder.Logging.ClearProviders().AddConsole(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
        if (options.LogsJson)
        {
            builder.Logging.AddJsonConsole(Written);
        }
        else
        {
            builder.Logging.AddSimpleConsole(text =>
            {
                Written(text);
                text.SingleLine = true;
                text.TimestampFormat += " ";
            });
        }

        builder.Logging.AddFilter("Microsoft", LogLevel.Warning);

        // It would put the address of each request, which can hold the code of a slip, in every line.
        builder.Logging.AddFilter("Microsoft.AspNetCore.Hosting.Diagnostics", LogLevel.None);

        // On a disk of one's own, file permissions protect the cookie keys.
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);

        // A form cookie of another station on this host (cookies know no ports) is replaced, not a fault to report.
        builder.Logging.AddFilter("Microsoft.AspNetCore.Antiforgery", LogLevel.Critical);

        // Run reports a start that fails in plain words.
        builder.Logging.AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.None);
        builder.Services.AddSingleton(options);
        builder.Services.AddSingleton<Demo>();
        builder.Services.AddSingleton<Trial>();
        builder.Services.AddSingleton(TimeProvider.System);
        return builder;
    }

    private static void Written(ConsoleFormatterOptions log)
    {
        log.IncludeScopes = true;
        log.UseUtcTimestamp = true;
        log.TimestampFormat = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";
    }

    /// <summary>Brings the store up to date, starts, prints the address, and runs until it is stopped. Returns the exit code.</summary>
    public static async Task<int> Run(WebApplication app, StationOptions options)
    {
        await using var running = app;
        MakeRoutesOnce(app);
        try
        {
            await OpenStore(app.Services);
            await app.Services.GetRequiredService<EntryImport>().ClearLeft();
            if (options.Demo)
            {
                await app.Services.GetRequiredService<Demo>().Seed();
            }

            await app.StartAsync();
        }
        catch (Exception e) when (RefusalOf(e, options.DataFolder) is { } refusal)
        {
            return Refuse(refusal);
        }
        catch (IOException e) when (e.InnerException is AddressInUseException)
        {
            return Refuse($"\"{options.Urls}\" is taken: another program listens there. Choose another address with --urls.");
        }
        catch (Exception e) when (e is IOException or System.Net.Sockets.SocketException)
        {
            return Refuse($"The station cannot listen on \"{options.Urls}\" ({e.Message}). Choose another address with --urls.");
        }

        Greet(app.Services, options);
        _ = Task.Run(() => WarmUp.Run(app.Urls));
        await app.WaitForShutdownAsync();
        return 0;
    }

    /// <summary>Opens the store, brings it up to date and compares it with its witness.</summary>
    /// <exception cref="CannotStartException">The station must not start with it.</exception>
    internal static async Task OpenStore(IServiceProvider services)
    {
        // Before a store is made: a key or a witness without a store is a loss.
        var witness = services.GetRequiredService<StoreWitness>();
        Migrator.Migrate(services.GetRequiredService<Database>());

        // Made at the first start, and a station whose key is missing or open to others does not start.
        services.GetRequiredService<StationKey>();

        // A store of an earlier version has names without their words. The witness is written behind this turn, and noted in the next.
        var gate = services.GetRequiredService<WriteGate>();
        await gate.Run(NameWords.FillIn);
        await gate.Run(write => RegisterLoss.Begin(write, witness.Now));
        ReadNotices(services, witness);
    }

    /// <summary>What a store that cannot be opened is refused with, in a sentence or two; null for any other error.</summary>
    internal static string? RefusalOf(Exception error, string folder) => error switch
    {
        CannotStartException => error.Message,
        DbException or InvalidDataException or StoreFaultException or FormatException =>
            $"The store in \"{folder}\" cannot be used ({error.Message}). Look at the folder, or choose another with --data.",
        _ => null,
    };

    // Sign-in and routing each ask the sources for all routes, and a source makes them anew each time. One source of all keeps them.
    private static void MakeRoutesOnce(IEndpointRouteBuilder app)
    {
        var all = new CompositeEndpointDataSource([.. app.DataSources]);
        app.DataSources.Clear();
        app.DataSources.Add(all);
    }

    // What is no fault and should be known: on the terminal and on the desk.
    private static void ReadNotices(IServiceProvider services, StoreWitness witness)
    {
        using var connection = services.GetRequiredService<Database>().OpenForReading();
        var state = services.GetRequiredService<StoreState>();
        state.Notices =
        [
            .. RegisterLoss.Accepted(connection).Select(loss => $"{loss.What}. This was accepted on "
                + $"{loss.At.UtcDateTime.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture)} UTC."),
            .. ClockBehind(connection, services.GetRequiredService<WriteGate>().Head.Size, witness.Now),
            .. witness.HasDamagedSlot ? ["One of the two statements of the store's witness could not be read; it was written again."]
                : Array.Empty<string>(),
        ];
        foreach (var notice in state.Notices)
        {
            Console.WriteLine(notice);
        }
    }

    private static IEnumerable<string> ClockBehind(DbConnection connection, long last, DateTimeOffset now)
    {
        if (last == 0)
        {
            yield break;
        }

        using var entry = JsonDocument.Parse(Register.BodyOf(connection, last)!);
        if (entry.RootElement.TryGetProperty("at", out var at) && at.ValueKind == JsonValueKind.String
            && at.TryGetDateTimeOffset(out var then) && then > now)
        {
            yield return string.Create(CultureInfo.InvariantCulture,
                $"The clock of this machine says {now.UtcDateTime:yyyy-MM-dd HH:mm} UTC, which is before the last entry of the register "
                + $"({then.UtcDateTime:yyyy-MM-dd HH:mm} UTC): set the clock before anything is recorded.");
        }
    }

    private static void Greet(IServiceProvider services, StationOptions options)
    {
        var address = services.GetRequiredService<PublicAddress>();
        Console.WriteLine($"The station is open at {address.Root}");
        Console.WriteLine($"It keeps everything in {options.DataFolder}{(options.IsTrial ? " (a trial: the event is invented)" : "")}");
        if (options.Demo)
        {
            var demo = services.GetRequiredService<Demo>();
            var passcode = options.DemoPasscode is null ? $"passcode {demo.Passcode}" : "the passcode in INSPECT_DEMO_PASSCODE";
            Console.WriteLine($"Sign in as inspector or as director with {passcode}");
        }

        var setUp = services.GetRequiredService<SetUp>();
        if (setUp.IsOpen())
        {
            Console.WriteLine($"Nobody can sign in yet. Make the first director at {address.Of("/set-up")} with the code {setUp.Code}");
        }

        if (address.IsOnlyForThisMachine && !options.IsTrial)
        {
            Console.WriteLine("The codes on slips lead to this machine only: name the address that phones reach with --public-url.");
        }
    }
}
