using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using Inspect.Benchmarks.Desk;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Benchmarks.Live;

/// <summary>What a verdict costs while a ball is typed, beside a handler of the same station that reads the same form
/// and writes the same bytes.</summary>
internal static partial class LiveBenchmark
{
    private const string Balls = "/events/LANTERN/entries/103/balls";
    private const string Reference = "/reference";
    private const int Batches = 9;
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(6);
    private static readonly TimeSpan Batch = TimeSpan.FromMilliseconds(400);

    private static readonly (string Name, string Value)[] Legal =
    [
        ("ball.maker", "Ostrava Kiln"), ("ball.model", "Nightjar"), ("ball.serial", "9QF31207"), ("ball.listed", "yes"),
        ("grip.hand", "right"), ("grip.digits", "thumb"), ("grip.digits", "middle"), ("grip.digits", "ring"),
        ("weights.gross", "15-1"), ("weights.topBottom", "1 1/4"), ("weights.topBottom.side", "top"),
        ("weights.leftRight", "1/2"), ("weights.leftRight.side", "right"),
        ("weights.fingerThumb", "1/4"), ("weights.fingerThumb.side", "thumb"),
        ("hole.thumb.diameter", "31/32"), ("hole.thumb.depth", "2 3/4"), ("hole.middle.diameter", "7/8"), ("hole.middle.depth", "2"),
        ("hole.ring.diameter", "27/32"), ("hole.ring.depth", "2"), ("holes.second", "none"), ("holes.other", "none"),
        ("size.diameters[0]", "8.580"), ("size.diameters[1]", "8.582"), ("size.circumference", "26.95"),
        ("marks.modelReadable", "yes"), ("marks.serialReadable", "yes"), ("marks.foreignMaterial", "no"), ("marks.surfacePattern", "no"),
    ];

    private static readonly (string Name, string Value)[] DeclaredAndPlaced =
    [
        ("ball.declared.rg", "2.480"), ("ball.declared.differential", "0.050"), ("ball.pin.arc", "3"), ("ball.pin.azimuth", "45"),
        ("hole.thumb.position.arc", "2 1/2"), ("hole.thumb.position.azimuth", "270"), ("hole.middle.position.arc", "2.35"),
        ("hole.middle.position.azimuth", "106"), ("hole.ring.position.arc", "2.36"), ("hole.ring.position.azimuth", "74"),
        ("weights.scaleConstant", "4.25"),
    ];

    private static readonly (string What, (string Name, string Value)[] Typed)[] Forms =
    [
        ("a legal ball", Legal),
        ("side 3 1/4 oz", With(("weights.leftRight", "3 1/4"))),
        ("top 3.2 oz", With(("weights.topBottom", "3.2"))),
        ("top 3.2 oz, declared and placed", With([("weights.topBottom", "3.2"), .. DeclaredAndPlaced])),
    ];

    public static async Task Run()
    {
        var folder = Directory.CreateTempSubdirectory("inspect-benchmark-").FullName;
        try
        {
            await using var station = new BenchmarkStation(folder);
            await using var beside = station.WithWebHostBuilder(
                builder => builder.ConfigureTestServices(services => services.AddSingleton<IStartupFilter, ReferenceHandler>()));
            using var client = await BenchmarkStation.SignedIn(beside, "inspector");
            var hidden = Hidden(await client.GetStringAsync($"{Balls}/new"));
            // The first form would otherwise pay for what is compiled once for all.
            var first = hidden.Concat(Legal).Select(field => KeyValuePair.Create(field.Name, field.Value));
            await CountFor(client, $"{Balls}/live", [.. first]);
            foreach (var (what, typed) in Forms)
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

    private static (string Name, string Value)[] With(params (string Name, string Value)[] others) =>
        [.. Legal.Where(field => others.All(other => other.Name != field.Name)), .. others];

    private static IEnumerable<(string Name, string Value)> Hidden(string page) => Inputs().Matches(page).Select(input => input.Value)
        .Where(input => HiddenOrDay().IsMatch(input))
        .Select(input => (Named().Match(input).Groups[1].Value, WebUtility.HtmlDecode(Valued().Match(input).Groups[1].Value)))
        .DistinctBy(field => field.Item1);

    [GeneratedRegex("type=\"hidden\"|name=\"play\"")]
    private static partial Regex HiddenOrDay();

    [GeneratedRegex("<input[^>]*>")]
    private static partial Regex Inputs();

    [GeneratedRegex(" name=\"([^\"]*)\"")]
    private static partial Regex Named();

    [GeneratedRegex(" value=\"([^\"]*)\"")]
    private static partial Regex Valued();

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
