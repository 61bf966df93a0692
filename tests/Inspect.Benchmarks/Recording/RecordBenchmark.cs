using System.Globalization;
using System.Net.Http.Headers;
using System.Text;
using Inspect.Benchmarks.Desk;
using Inspect.Station.Storage;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Benchmarks.Recording;

/// <summary>What it costs to record an inspection through the whole station over loopback, beside a bare route that writes as many bytes as
/// durably.</summary>
internal static class RecordBenchmark
{
    private const int Requests = 500;

    private static readonly MediaTypeHeaderValue Json = new("application/json");

    public static async Task Run(TimeSpan duration)
    {
        var folder = Directory.CreateTempSubdirectory("inspect-benchmark-").FullName;
        try
        {
            var bodies = Enumerable.Range(0, Requests)
                .Select(index => Encoding.UTF8.GetBytes(SampleSheets.Request(index).ToJsonString())).ToArray();
            var (ours, kept, answer) = await Station(Path.Combine(folder, "station"), bodies, duration);
            await using var bare = await BareRecorder.Start(folder, kept, answer);
            using var client = new HttpClient { BaseAddress = bare.Address };
            var reference = await Measure(duration, number => Send(client, "/record", bodies[number % Requests], number));
            foreach (var clients in ours.Keys)
            {
                Print(clients, ours[clients], reference[clients]);
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<(SortedDictionary<int, Load> Loads, int Body, byte[] Answer)> Station(
        string folder, byte[][] bodies, TimeSpan duration)
    {
        await using var station = new BenchmarkStation(folder);
        station.UseKestrel(0);
        using var inspector = await station.SignedIn("inspector");
        var loads = await Measure(duration, number => Send(inspector, "/api/inspections", bodies[number % Requests], number));
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        using var command = connection.CreateCommand();
        command.CommandText = """
            SELECT count(*), avg(length(body)), (SELECT page_count FROM pragma_page_count()) * (SELECT page_size FROM pragma_page_size())
            FROM register_entry WHERE kind = 'inspection'
            """;
        using var row = command.ExecuteReader();
        row.Read();
        var (count, body, file) = (row.GetInt64(0), row.GetDouble(1), row.GetInt64(2));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{count:N0} recorded; a body {body:0} bytes, kept for each {(double)file / count:0} bytes, {file / count / body:0.00} x the body"));
        return (loads, (int)body, await Send(inspector, "/api/inspections", bodies[0], 0));
    }

    private static async Task<SortedDictionary<int, Load>> Measure(TimeSpan duration, Func<int, Task<byte[]>> send)
    {
        var sent = 0;
        Task Next() => send(Interlocked.Increment(ref sent));
        await Load.Of(8, duration / 2, Next);
        return new SortedDictionary<int, Load> { [1] = await Load.Of(1, duration, Next), [64] = await Load.Of(64, duration, Next) };
    }

    private static async Task<byte[]> Send(HttpClient client, string path, byte[] body, int number)
    {
        using var message = new HttpRequestMessage(HttpMethod.Post, path) { Content = new ByteArrayContent(body) };
        message.Content.Headers.ContentType = Json;
        message.Headers.Add("Idempotency-Key", string.Create(CultureInfo.InvariantCulture, $"benchmark-{number}"));
        using var answer = await client.SendAsync(message);
        answer.EnsureSuccessStatusCode();
        return await answer.Content.ReadAsByteArrayAsync();
    }

    private static void Print(int clients, Load ours, Load reference)
    {
        var who = clients == 1 ? "1 client" : string.Create(CultureInfo.InvariantCulture, $"{clients} clients");
        Report.Line($"reference, {who}: each", reference.Each, reference.Each);
        Report.Line($"an inspection, {who}: each", ours.Each, reference.Each);
        Report.Line($"reference, {who}: p50", reference.Half, reference.Half);
        Report.Line($"an inspection, {who}: p50", ours.Half, reference.Half);
        Report.Line($"reference, {who}: processor time", reference.Processor, reference.Processor);
        Report.Line($"an inspection, {who}: processor time", ours.Processor, reference.Processor);
        Report.Bytes($"reference, {who}: allocated", reference.Allocated, reference.Allocated);
        Report.Bytes($"an inspection, {who}: allocated", ours.Allocated, reference.Allocated);
    }
}
