using System.Globalization;
using Inspect.Benchmarks.Desk;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Benchmarks.Live;

/// <summary>What a verdict costs while a ball is typed, beside a handler of the same station that reads the same form
/// and writes the same bytes.</summary>
internal static class LiveBenchmark
{
    private const string Balls = TypedForms.Balls;
    private const string Reference = "/reference";
    private const int Batches = 9;
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(6);
    private static readonly TimeSpan Batch = TimeSpan.FromMilliseconds(400);

    public static async Task Run()
    {
        var folder = Directory.CreateTempSubdirectory("inspect-benchmark-").FullName;
        try
        {
            await using var station = new BenchmarkStation(folder);
            await using var beside = station.WithWebHostBuilder(
                builder => builder.ConfigureTestServices(services => services.AddSingleton<IStartupFilter, ReferenceHandler>()));
            using var client = await BenchmarkStation.SignedIn(beside, "inspector");
            var hidden = TypedForms.Hidden(await client.GetStringAsync($"{Balls}/new"));
            // The first form would otherwise pay for what is compiled once for all.
            var first = hidden.Concat(TypedForms.Legal).Select(field => KeyValuePair.Create(field.Name, field.Value));
            await CountFor(client, $"{Balls}/live", [.. first]);
            foreach (var (what, typed) in TypedForms.All)
            {
                await Measure(client, what, [.. hidden, .. typed]);
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task Measure(HttpClient client, string what, (string Name, string Value)[] fields)
    {
        var form = fields.Select(field => KeyValuePair.Create(field.Name, field.Value)).ToArray();
        ReferenceHandler.Bytes = await Answer(client, $"{Balls}/live", form);
        List<Cost> judged = [], reference = [];
        var (oneJudged, oneReference) = (await CountFor(client, $"{Balls}/live", form), await CountFor(client, Reference, form));
        for (var i = 0; i < Batches; i++)
        {
            reference.Add(await CostOf(client, Reference, form, oneReference));
            judged.Add(await CostOf(client, $"{Balls}/live", form, oneJudged));
        }

        var (cost, floor) = (Median(judged), Median(reference));
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{what,-34} {cost.Ms,9:0.00} ms {cost.Kilobytes,6:0} kB   reference {floor.Ms,5:0.00} ms {floor.Kilobytes,5:0} kB "
                + $"{cost.Ms / floor.Ms,8:0.0} x"));
    }

    private static Cost Median(List<Cost> costs) => costs.OrderBy(cost => cost.Ms).ElementAt(costs.Count / 2);

    /// <summary>How many requests fill a batch, after a warm-up in which the code is compiled for good.</summary>
    private static async Task<int> CountFor(HttpClient client, string path, KeyValuePair<string, string>[] form)
    {
        for (var started = Environment.CpuUsage.TotalTime; Environment.CpuUsage.TotalTime - started < WarmUp;)
        {
            await Answer(client, path, form);
        }

        for (var calls = 1; ; calls *= 2)
        {
            var cost = await CostOf(client, path, form, calls);
            if (cost.Ms * calls >= Batch.TotalMilliseconds)
            {
                return calls;
            }
        }
    }

    private static async Task<Cost> CostOf(HttpClient client, string path, KeyValuePair<string, string>[] form, int calls)
    {
        var (time, bytes) = (Environment.CpuUsage.TotalTime, GC.GetTotalAllocatedBytes(precise: true));
        for (var i = 0; i < calls; i++)
        {
            await Answer(client, path, form);
        }

        return new Cost(
            (Environment.CpuUsage.TotalTime - time).TotalMilliseconds / calls,
            (GC.GetTotalAllocatedBytes(precise: true) - bytes) / 1024.0 / calls);
    }

    private static async Task<byte[]> Answer(HttpClient client, string path, KeyValuePair<string, string>[] form)
    {
        using var content = new FormUrlEncodedContent(form);
        using var answer = await client.PostAsync(path, content);
        answer.EnsureSuccessStatusCode();
        return await answer.Content.ReadAsByteArrayAsync();
    }

    private readonly record struct Cost(double Ms, double Kilobytes);

    /// <summary>Behind everything the station does before a handler: checks the form's token, reads the form and writes
    /// the bytes.</summary>
    private sealed class ReferenceHandler : IStartupFilter
    {
        public static byte[] Bytes { get; set; } = [];

        public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
        {
            next(app);
            app.Run(async http =>
            {
                await http.RequestServices.GetRequiredService<IAntiforgery>().ValidateRequestAsync(http);
                var form = await http.Request.ReadFormAsync();
                http.Response.StatusCode = form.Count > 0 ? 200 : 400;
                http.Response.ContentType = "text/html; charset=utf-8";
                await http.Response.Body.WriteAsync(Bytes);
            });
        };
    }
}
