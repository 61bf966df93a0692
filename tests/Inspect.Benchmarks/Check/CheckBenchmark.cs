using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json;
using Inspect.Benchmarks.Desk;
using Inspect.Station.CommandLine;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Microsoft.Extensions.DependencyInjection;
using Clock = System.Diagnostics.Stopwatch;

namespace Inspect.Benchmarks.Check;

/// <summary>How fast the verbs <c>verify</c> and <c>replay</c> go through a large exported register, beside hashing its bytes and beside
/// reading and parsing its lines on one processor.</summary>
internal static class CheckBenchmark
{
    // What a recorded sample comes to as a line.
    private const int BytesOfEntry = 16_400;

    public static async Task Run(int megabytes)
    {
        var folder = Directory.CreateTempSubdirectory("inspect-benchmark-").FullName;
        try
        {
            var export = Path.Combine(folder, "register.jsonl");
            var key = Path.Combine(folder, "key.txt");
            await Export(folder, (int)(megabytes * 1_000_000L / BytesOfEntry), export, key);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"An export of {new FileInfo(export).Length / 1e6:N0} MB"));
            var hashing = Measured("reference: SHA-256 of the bytes", null, () => Hash(export));
            Measured("verify", hashing, () => VerifyVerb.Run([export, "--key", key], Console.Out, Console.Error));
            var parsing = Measured("reference: reading and parsing the lines", null, () => Parse(export));
            Measured("replay", parsing, () => ReplayVerb.Run([export], Stream.Null, TextWriter.Null, Console.Error));
            Measured("replay --bytes", parsing, () => ReplayVerb.Run([export, "--bytes"], Stream.Null, TextWriter.Null, Console.Error));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task Export(string folder, int inspections, string export, string key)
    {
        var store = Path.Combine(folder, "store");
        Directory.CreateDirectory(store);
        await DeskBenchmark.RecordBodies(store);
        var large = new LargeStore(Path.Combine(store, "inspect.db"), inspections, new Random(20270314))
        {
            Today = DemoEvent.Today(TimeProvider.System),
        };
        large.Fill();
        await using (var station = new BenchmarkStation(store))
        {
            var services = station.Services;
            var signing = services.GetRequiredService<StationKey>();
            await using var file = File.Create(export);
            await RegisterExport.Write(
                services.GetRequiredService<Database>(), services.GetRequiredService<WriteGate>(), signing, file);
            await File.WriteAllTextAsync(key, signing.Public.Text);
        }

        Directory.Delete(store, recursive: true);
    }

    private static int Hash(string file)
    {
        using var stream = File.OpenRead(file);
        return SHA256.HashData(stream)[0] & 0;
    }

    private static int Parse(string file)
    {
        using var reader = new StreamReader(file);
        while (reader.ReadLine() is { } line)
        {
            using var parsed = JsonDocument.Parse(line);
        }

        return 0;
    }

    /// <summary>Runs it once and prints its time, what it allocated, and the most memory the process took meanwhile.</summary>
    private static TimeSpan Measured(string what, TimeSpan? reference, Func<int> work)
    {
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        var (before, processor) = (GC.GetTotalAllocatedBytes(), Environment.CpuUsage.TotalTime);
        var highest = Environment.WorkingSet;
        using var watch = new Timer(_ => highest = Math.Max(highest, Environment.WorkingSet), null, 0, 20);
        var started = Clock.GetTimestamp();
        var exit = work();
        var time = Clock.GetElapsedTime(started);
        processor = Environment.CpuUsage.TotalTime - processor;
        if (exit != 0)
        {
            throw new InvalidOperationException($"{what} ended with {exit}.");
        }

        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{what,-42} {time.TotalSeconds,7:0.00} s {time / (reference ?? time),6:0.0} x   processor {processor.TotalSeconds,7:0.00} s   "
            + $"peak {highest / 1e6,6:0} MB   allocated {(GC.GetTotalAllocatedBytes() - before) / 1e6,8:0} MB"));
        return time;
    }
}
