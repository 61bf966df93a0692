using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Clock = System.Diagnostics.Stopwatch;

namespace Inspect.Benchmarks.Starting;

/// <summary>How long a built station takes from its start to its first answer and to its first verdict, and what it then keeps, beside the
/// smallest program of the same kind. Both run as processes of their own, in turns.</summary>
internal static class StartBenchmark
{
    private const int Times = 5;

    private const string Sheet = """
        {"play":"2024-03-10","authority":"us-national","weights":{"gross":"15 lb"},"holes":[{"kind":"grip","digit":"thumb"}]}
        """;

    private static readonly TimeSpan Idle = TimeSpan.FromSeconds(5);

    /// <param name="program">The station: <c>Inspect.Station.dll</c>, or the executable file that is published with it.</param>
    public static async Task Run(string program)
    {
        var (bare, first, again) = (new List<Start>(), new List<Start>(), new List<Start>());
        for (var i = 0; i < Times; i++)
        {
            var folder = Directory.CreateTempSubdirectory("inspect-benchmark-").FullName;
            try
            {
                bare.Add(await Measured(url => ["dotnet", typeof(StartBenchmark).Assembly.Location, "bare", url, folder], null));
                string[] Station(string url) =>
                    [.. Started(program), "--data", Path.Combine(folder, "station"), "--demo", "--urls", url];
                first.Add(await Measured(Station, Sheet));
                again.Add(await Measured(Station, Sheet));
            }
            finally
            {
                Directory.Delete(folder, recursive: true);
            }
        }

        Say("reference: bare program with a store", bare, bare);
        Say("station, first start in an empty folder", first, bare);
        Say("station, a later start", again, bare);
    }

    private static async Task<Start> Measured(Func<string, string[]> command, string? sheet)
    {
        var url = $"http://127.0.0.1:{FreePort()}";
        var line = command(url);
        using var client = new HttpClient { BaseAddress = new Uri(url) };
        var started = Clock.GetTimestamp();
        var silent = new ProcessStartInfo(line[0], line[1..]) { RedirectStandardOutput = true, RedirectStandardError = true };
        using var process = Process.Start(silent)!;
        try
        {
            await FirstAnswer(client, process);
            var answer = Clock.GetElapsedTime(started);
            process.Refresh();
            var processor = process.TotalProcessorTime;
            if (sheet is not null)
            {
                using var verdict = await client.PostAsync("/api/judge", new StringContent(sheet, Encoding.UTF8, "application/json"));
                verdict.EnsureSuccessStatusCode();
            }

            var judged = Clock.GetElapsedTime(started);
            await Task.Delay(Idle);
            process.Refresh();
            return new Start(answer, processor, judged, process.WorkingSet64);
        }
        finally
        {
            process.Kill();
            await process.WaitForExitAsync();
        }
    }

    private static string[] Started(string program) => program.EndsWith(".dll", StringComparison.Ordinal) ? ["dotnet", program] : [program];

    private static async Task FirstAnswer(HttpClient client, Process process)
    {
        while (!process.HasExited)
        {
            try
            {
                using var answer = await client.GetAsync("/");
                answer.EnsureSuccessStatusCode();
                return;
            }
            catch (HttpRequestException notYet) when (notYet.InnerException is SocketException)
            {
                await Task.Delay(2);
            }
        }

        throw new InvalidOperationException($"The program ended: {await process.StandardError.ReadToEndAsync()}");
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private static void Say(string what, List<Start> starts, List<Start> reference) => Console.WriteLine(string.Create(
        CultureInfo.InvariantCulture,
        $"{what,-42} first answer {Median(starts, one => one.Answer.TotalSeconds),6:0.00} s "
        + $"{Median(starts, one => one.Answer.TotalSeconds) / Median(reference, one => one.Answer.TotalSeconds),5:0.0} x   "
        + $"processor {Median(starts, one => one.Processor.TotalSeconds),6:0.00} s   "
        + $"first verdict {Median(starts, one => one.Judged.TotalSeconds),6:0.00} s   "
        + $"idle {Median(starts, one => one.Kept / 1e6),5:0} MB"));

    private static double Median(List<Start> starts, Func<Start, double> of) => starts.Select(of).Order().ElementAt(starts.Count / 2);

    private sealed record Start(TimeSpan Answer, TimeSpan Processor, TimeSpan Judged, long Kept);
}
