using System.Globalization;
using Inspect.Benchmarks;
using Inspect.Benchmarks.Check;
using Inspect.Benchmarks.Desk;
using Inspect.Benchmarks.Live;
using Inspect.Benchmarks.Recording;
using Inspect.Benchmarks.Slips;

// Each line is a time and its ratio to a reference measured in the same run: the ratio travels between machines, the time does not.
// A number after the name is the size of what is measured.
var benchmarks = new (string Name, Func<int?, Task> Run)[]
{
    ("live", _ => LiveBenchmark.Run()),
    ("slip", Plainly(SlipBenchmark.Run)),
    ("check", megabytes => CheckBenchmark.Run(megabytes ?? 100)),
    ("judge", Plainly(JudgeBenchmark.Run)),
    ("record", seconds => RecordBenchmark.Run(TimeSpan.FromSeconds(seconds ?? 5))),
    ("ball", Plainly(BallBenchmark.Run)),
    ("desk", inspections => DeskBenchmark.Run(inspections ?? 100_000)),
};
if (args is ["names"])
{
    Console.WriteLine(string.Join('\n', benchmarks.Select(each => each.Name)));
}
else if (args is [var name, .. var size] && Array.Find(benchmarks, each => each.Name == name).Run is { } run)
{
    await run(size is [var number] ? int.Parse(number, CultureInfo.InvariantCulture) : null);
}
else
{
    Console.Error.WriteLine($"Name one of {string.Join(", ", benchmarks.Select(each => each.Name))}, and a size if you like.");
    return 2;
}

return 0;

static Func<int?, Task> Plainly(Action run) => _ =>
{
    run();
    return Task.CompletedTask;
};
