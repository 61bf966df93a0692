using System.Globalization;
using System.Text;
using Dapper;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Microsoft.Extensions.DependencyInjection;
using Clock = System.Diagnostics.Stopwatch;

namespace Inspect.Benchmarks.Desk;

/// <summary>How fast the desk finds among many inspections, through the real handlers, beside a
/// primary-key lookup of the same store.</summary>
internal static class DeskBenchmark
{
    private const int Bodies = 200;
    private const int TimesEach = 40;

    public static async Task Run(int inspections)
    {
        var folder = Directory.CreateTempSubdirectory("inspect-benchmark-").FullName;
        try
        {
            await RecordBodies(folder);
            var started = Clock.GetTimestamp();
            var store = new LargeStore(Path.Combine(folder, "inspect.db"), inspections, new Random(20270314))
            {
                Today = DemoEvent.Today(TimeProvider.System),
            };
            store.Fill();
            var gigabytes = new FileInfo(Path.Combine(folder, "inspect.db")).Length / 1e9;
            Say($"{inspections:N0} inspections written in {Clock.GetElapsedTime(started).TotalSeconds:0} s, {gigabytes:0.0} GB");
            await Measure(folder, store);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Records sheets as a table does, so that the bodies are those of the program itself.</summary>
    internal static async Task RecordBodies(string folder)
    {
        await using var station = new BenchmarkStation(folder);
        using var inspector = await station.SignedIn("inspector");
        foreach (var index in Enumerable.Range(0, Bodies))
        {
            using var message = new HttpRequestMessage(HttpMethod.Post, "/api/inspections");
            message.Content = new StringContent(SampleSheets.Request(index).ToJsonString(), Encoding.UTF8, "application/json");
            message.Headers.Add("Idempotency-Key", $"benchmark-{index}");
            using var answer = await inspector.SendAsync(message);
            answer.EnsureSuccessStatusCode();
        }
    }

    private static async Task Measure(string folder, LargeStore store)
    {
        var started = Clock.GetTimestamp();
        await using var station = new BenchmarkStation(folder);
        using var director = await station.SignedIn("director");
        Say($"The station starts in {Clock.GetElapsedTime(started).TotalSeconds:0.0} s, with the register's head rebuilt.");

        var reference = Lookup(station.Services.GetRequiredService<Database>(), store);
        Report.Line("reference: an index row by its number in the register", reference, reference);
        var random = new Random(417);
        var all = new List<TimeSpan>();
        foreach (var (what, path) in Mix(store, random))
        {
            var (times, cpu) = await Times(director, path, TimesEach);
            all.AddRange(times);
            Report.Line($"{what}: p50", At(times, 0.5), reference);
            Report.Line($"{what}: longest", times[^1], reference);
            Report.Line($"{what}: processor time, mean", cpu, reference);
        }

        all.Sort();
        Report.Line("ALL searches and filtered pages: p50", At(all, 0.5), reference);
        Report.Line("ALL searches and filtered pages: p99", At(all, 0.99), reference);
        foreach (var (what, path) in new (string, Func<string>)[]
        {
            ("/desk", () => "/desk"),
            ("/desk with a search", () => $"/desk?q={Uri.EscapeDataString(Some(store.Names, random))}"),
            ("a ball's story", () => $"/desk/balls/{Some(store.Samples, random).Ball}"),
        })
        {
            var (times, cpu) = await Times(director, path, 100);
            Report.Line($"{what}: p50", At(times, 0.5), reference);
            Report.Line($"{what}: p99", At(times, 0.99), reference);
            Report.Line($"{what}: processor time, mean", cpu, reference);
        }

        await WholeEvent(director, station.Services.GetRequiredService<Database>());
        await Export(director);
    }

    // The pages about everything of one event; the reference is reading the bytes of its bodies.
    private static async Task WholeEvent(HttpClient director, Database database)
    {
        var id = LargeStore.EventName(LargeStore.Events - 1);
        var (bodies, bytes) = (0, 0L);
        var started = Clock.GetTimestamp();
        using (var connection = database.OpenForReading())
        {
            const string Sql = "SELECT r.body FROM inspection_index i JOIN register_entry r ON r.seq = i.seq WHERE i.event = @id";
            foreach (var body in connection.Query<byte[]>(Sql, new { id }, buffered: false))
            {
                (bodies, bytes) = (bodies + 1, bytes + body.Length);
            }
        }

        var reference = Clock.GetElapsedTime(started);
        Report.Line(
            string.Create(CultureInfo.InvariantCulture, $"reference: {bodies:N0} bodies of {id}, {bytes / 1e6:0} MB, read"),
            reference, reference);
        foreach (var (what, path) in new[]
        {
            ("the event's page", $"/events/{id}"), ("its open list", $"/desk/events/{id}/open"),
            ("its charts, first time", $"/desk/events/{id}/charts"), ("its charts again", $"/desk/events/{id}/charts"),
        })
        {
            started = Clock.GetTimestamp();
            var page = await director.GetByteArrayAsync(path);
            var took = Clock.GetElapsedTime(started);
            Report.Line(string.Create(CultureInfo.InvariantCulture, $"{what}, {page.Length / 1e3:0} kB"), took, reference);
        }
    }

    private static IEnumerable<(string What, Func<string> Path)> Mix(LargeStore store, Random random)
    {
        const string Api = "/api/inspections?";
        string Name(int words) => Uri.EscapeDataString(string.Join(' ', Some(store.Names, random).Split(' ').Reverse().Take(words)));
        string Event() => LargeStore.EventName(random.Next(LargeStore.Events));
        string Inspector() => Some(store.InspectorIds, random);
        var day = store.Today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        var earlier = store.Today.AddDays(-95).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        yield return ("name, three words", () => $"{Api}q={Name(3)}");
        yield return ("name, two words", () => $"{Api}q={Name(2)}");
        yield return ("name, one word in one event", () => $"{Api}q={Name(1)}&event={Event()}");
        yield return ("name, one letter (refused)", () => $"{Api}q=m");
        yield return ("entry number", () => $"{Api}q={101 + random.Next(5000)}");
        yield return ("serial", () => $"{Api}q={Some(store.Samples, random).Serial}");
        yield return ("beginning of a serial", () => $"{Api}q={Some(store.Samples, random).Serial[..4]}");
        yield return ("inspection number", () => $"{Api}q={Some(store.Samples, random).Number}");
        yield return ("running number in an event", () => $"{Api}q={1 + random.Next(9000)}&event={Event()}");
        yield return ("slip code", () => $"{Api}q={Some(store.Samples, random).Code}");
        yield return ("model", () => $"{Api}model=nightjar {random.Next(17)}");
        yield return ("model, verdict, event", () => $"{Api}model=nightjar 1&outcome=fail&event={Event()}");
        yield return ("a word of every model, standing", () => $"{Api}model=kiln&standing=superseded");
        yield return ("nothing that is there", () => $"{Api}q=Xyzzy{random.Next(1000)}");
        yield return ("no filter", () => "/api/inspections");
        yield return ("event", () => $"{Api}event={Event()}");
        yield return ("event, verdict", () => $"{Api}event={Event()}&outcome=fail");
        yield return ("event, rule not met", () => $"{Api}event={Event()}&rule=left-right&ruleOutcome=fail");
        yield return ("rule, verdict, inspector", () => $"{Api}rule=left-right&outcome=fail&inspector={Inspector()}");
        yield return ("rule open, inspector", () => $"{Api}rule=gross-weight&ruleOutcome=hold&inspector={Inspector()}");
        yield return ("a rule that all of an inspector's met", () => $"{Api}rule=surface-pattern&inspector={Inspector()}");
        yield return (
            "inspector who was never at the event", () => $"{Api}inspector={store.InspectorIds[0]}&event={LargeStore.EventName(9)}");
        yield return ("edition that the event never had", () => $"{Api}edition=us-national/2018-08-01&event={LargeStore.EventName(11)}");
        yield return ("edition, verdict, standing", () => $"{Api}edition=us-national/2018-08-01&outcome=pass&standing=superseded");
        yield return ("edition, verdict", () => $"{Api}edition=us-national/2018-08-01&outcome=pass");
        yield return ("standing stands, verdict", () => $"{Api}standing=stands&outcome=hold");
        yield return ("days of play", () => $"{Api}from={earlier}&to={day}&outcome=fail");
        yield return (
            "days with nothing",
            () => $"{Api}from={store.Today.AddDays(-20):yyyy-MM-dd}&to={store.Today.AddDays(-10):yyyy-MM-dd}&outcome=pass");
        yield return (
            "time recorded, inspector, rule",
            () => $"{Api}recordedFrom={earlier}&recordedTo={day}T12:00&inspector={Inspector()}&rule=left-right");
        yield return ("far back", () => $"{Api}outcome=pass&cursor=before-{1 + random.Next(200_000)}");
    }

    private static async Task<(List<TimeSpan> Times, TimeSpan Cpu)> Times(HttpClient director, Func<string> path, int count)
    {
        var times = new List<TimeSpan>();
        var before = TimeSpan.Zero;
        for (var i = -3; i < count; i++)
        {
            // The first few are not counted.
            before = i == 0 ? Environment.CpuUsage.TotalTime : before;
            var started = Clock.GetTimestamp();
            using var answer = await director.GetAsync(path());
            await answer.Content.ReadAsByteArrayAsync();
            if ((int)answer.StatusCode is not (200 or 400))
            {
                throw new InvalidOperationException($"{path()} answered {answer.StatusCode}.");
            }

            if (i >= 0)
            {
                times.Add(Clock.GetElapsedTime(started));
            }
        }

        times.Sort();
        return (times, (Environment.CpuUsage.TotalTime - before) / count);
    }

    private static TimeSpan Lookup(Database database, LargeStore store) => Cost.Of(() =>
    {
        using var connection = database.OpenForReading();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT number, event, entry, serial, outcome, at FROM inspection_index WHERE seq = @seq";
        var seq = command.CreateParameter();
        (seq.ParameterName, seq.Value) = ("@seq", store.Samples[store.Samples.Count / 2].Seq);
        command.Parameters.Add(seq);
        using var reader = command.ExecuteReader();
        return reader.Read() ? reader.GetString(0).Length : 0;
    }).Time;

    private static async Task Export(HttpClient director)
    {
        GC.Collect();
        var (heapBefore, setBefore) = (GC.GetTotalMemory(forceFullCollection: true), Environment.WorkingSet);
        var (heapMost, setMost, bytes) = (heapBefore, setBefore, 0L);
        var started = Clock.GetTimestamp();
        using var answer = await director.GetAsync("/api/inspections.csv", HttpCompletionOption.ResponseHeadersRead);
        await using var stream = await answer.Content.ReadAsStreamAsync();
        var buffer = new byte[1 << 16];
        for (var reads = 0; await stream.ReadAsync(buffer) is var read and > 0; reads++)
        {
            bytes += read;
            if (reads % 256 == 0)
            {
                heapMost = Math.Max(heapMost, GC.GetTotalMemory(forceFullCollection: false));
                setMost = Math.Max(setMost, Environment.WorkingSet);
            }
        }

        Say($"CSV of everything: {bytes / 1e6:0} MB in {Clock.GetElapsedTime(started).TotalSeconds:0.0} s");
        Say($"  heap {heapBefore / 1e6:0} MB before, {heapMost / 1e6:0} MB at most");
        Say($"  working set {setBefore / 1e6:0} MB before, {setMost / 1e6:0} MB at most");
    }

    private static TimeSpan At(List<TimeSpan> sorted, double part) => sorted[Math.Min(sorted.Count - 1, (int)(sorted.Count * part))];

    private static T Some<T>(IReadOnlyList<T> list, Random random) => list[random.Next(list.Count)];

    private static void Say(FormattableString line) => Console.WriteLine(line.ToString(CultureInfo.InvariantCulture));
}
