using System.Collections.Concurrent;
using System.Globalization;
using System.Text;
using Inspect.Benchmarks.Desk;
using Clock = System.Diagnostics.Stopwatch;

namespace Inspect.Benchmarks.Live;

/// <summary>Eight tables typing failed balls at once, ten readings a second each, as the form's script asks: the verdict, then what could
/// cure the ball, which is given up with the next key. Beside them balls are recorded, slips scanned and the desk searched.</summary>
internal static class TablesBenchmark
{
    private const int Tables = 8;
    private static readonly TimeSpan Key = TimeSpan.FromMilliseconds(100);
    private static readonly TimeSpan Second = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan Wanted = TimeSpan.FromMilliseconds(50);

    public static async Task Run(TimeSpan duration)
    {
        var folder = Directory.CreateTempSubdirectory("inspect-benchmark-").FullName;
        try
        {
            await using var station = new BenchmarkStation(folder);
            station.UseKestrel(0);
            using var inspector = await station.SignedIn("inspector");
            using var director = await station.SignedIn("director");
            var hidden = TypedForms.Hidden(await inspector.GetStringAsync($"{TypedForms.Balls}/new")).ToArray();
            var code = "";
            var work = new (string What, int AtOnce, TimeSpan Every, Func<int, CancellationToken, Task> Do)[]
            {
                ("a verdict", Tables, Key, (number, given) => Typed(inspector, [.. hidden, .. Failed(number)], given)),
                ("a ball recorded", 1, Key, async (number, _) => code = await Recorded(inspector, number)),
                ("a slip scanned", 1, Second, (_, _) => Got(inspector, $"/s/{code}")),
                ("a search at the desk", 1, Second, (number, _) => Got(director, $"/desk?q={101 + (number % 24)}")),
            };
            await work[1].Do(0, default);
            await All(work, WarmUp, 1_000);
            var (times, lost) = await All(work, duration, 100_000);
            foreach (var (what, _, _, _) in work)
            {
                var sorted = times[what].Order().ToList();
                Console.WriteLine(string.Create(
                    CultureInfo.InvariantCulture,
                    $"{what,-22} {sorted.Count,6:N0} times   p50 {sorted[sorted.Count / 2].TotalMilliseconds,6:0.0} ms   "
                        + $"p99 {At99(sorted).TotalMilliseconds,6:0.0} ms   p99 / {Wanted.TotalMilliseconds:0} ms {At99(sorted) / Wanted,5:0.00}"));
            }

            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"requests that failed: {lost}"));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static TimeSpan At99(List<TimeSpan> sorted) => sorted[sorted.Count * 99 / 100];

    private static async Task<(Dictionary<string, ConcurrentBag<TimeSpan>> Times, int Lost)> All(
        (string What, int AtOnce, TimeSpan Every, Func<int, CancellationToken, Task> Do)[] work, TimeSpan duration, int from)
    {
        var times = work.ToDictionary(each => each.What, _ => new ConcurrentBag<TimeSpan>());
        var (lost, number, began) = (0, from, Clock.GetTimestamp());
        await Task.WhenAll(work.SelectMany(each => Enumerable.Range(0, each.AtOnce).Select(_ => Task.Run(async () =>
        {
            using var beat = new PeriodicTimer(each.Every);
            CancellationTokenSource given = new();
            while (Clock.GetElapsedTime(began) < duration)
            {
                await given.CancelAsync();
                given.Dispose();
                given = new();
                var started = Clock.GetTimestamp();
                try
                {
                    await each.Do(Interlocked.Increment(ref number), given.Token);
                    times[each.What].Add(Clock.GetElapsedTime(started));
                }
                catch (HttpRequestException)
                {
                    Interlocked.Increment(ref lost);
                }

                await beat.WaitForNextTickAsync();
            }

            given.Dispose();
        }))));
        return (times, lost);
    }

    // Every ball is another, so that nothing is answered from what is kept.
    private static (string Name, string Value)[] Failed(int number)
    {
        var (_, typed) = TypedForms.All[1 + (number % 3)];
        var serial = ("ball.serial", string.Create(CultureInfo.InvariantCulture, $"9QF{number}"));
        return [.. typed.Where(field => field.Name != serial.Item1), serial];
    }

    // The advice is asked for once the verdict is there; nobody waits for it here, and the next key gives it up.
    private static async Task Typed(HttpClient client, (string Name, string Value)[] fields, CancellationToken given)
    {
        var form = fields.Select(field => KeyValuePair.Create(field.Name, field.Value)).ToArray();
        var verdict = await Sent(client, $"{TypedForms.Balls}/live", form, default);
        if (verdict.Contains("id=\"advice\"", StringComparison.Ordinal))
        {
            _ = Sent(client, $"{TypedForms.Balls}/advice", form, given).ContinueWith(
                asked => asked.Exception, CancellationToken.None, TaskContinuationOptions.ExecuteSynchronously, TaskScheduler.Default);
        }
    }

    private static async Task<string> Sent(
        HttpClient client, string path, KeyValuePair<string, string>[] form, CancellationToken given)
    {
        using var content = new FormUrlEncodedContent(form);
        using var answer = await client.PostAsync(path, content, given);
        answer.EnsureSuccessStatusCode();
        return await answer.Content.ReadAsStringAsync(given);
    }

    private static async Task<string> Recorded(HttpClient client, int number)
    {
        using var message = new HttpRequestMessage(HttpMethod.Post, "/api/inspections");
        message.Content = new StringContent(SampleSheets.Request(number).ToJsonString(), Encoding.UTF8, "application/json");
        message.Headers.Add("Idempotency-Key", string.Create(CultureInfo.InvariantCulture, $"tables-{number}"));
        using var answer = await client.SendAsync(message);
        answer.EnsureSuccessStatusCode();
        return (string)System.Text.Json.Nodes.JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["code"]!;
    }

    private static async Task Got(HttpClient client, string path)
    {
        using var answer = await client.GetAsync(path);
        answer.EnsureSuccessStatusCode();
        await answer.Content.ReadAsByteArrayAsync();
    }
}
