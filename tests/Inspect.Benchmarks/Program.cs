using System.Globalization;
using Inspect.Benchmarks;
using Inspect.Benchmarks.Check;
using Inspect.Benchmarks.Desk;
using Inspect.Benchmarks.Import;
using Inspect.Benchmarks.Live;
using Inspect.Benchmarks.Recording;
using Inspect.Benchmarks.Slips;
using Inspect.Benchmarks.Starting;

// Each line is a time and its ratio to a reference measured in the same run: the ratio travels between machines, the time does not.
// What follows a name is the size of what is measured, or for "start" the program.
var benchmarks = new (string Name, Func<string?, Task> Run)[]
{
    ("live", _ => LiveBenchmark.Run()),
    ("tables", seconds => TablesBenchmark.Run(TimeSpan.FromSeconds(Number(seconds, 20)))),
    ("judge", Plainly(JudgeBenchmark.Run)),
    ("record", seconds => RecordBenchmark.Run(TimeSpan.FromSeconds(Number(seconds, 5)))),
    ("import", rows => ImportBenchmark.Run(Number(rows, 50_000))),
    ("slip", Plainly(SlipBenchmark.Run)),
    ("ball", Plainly(BallBenchmark.Run)),
    ("check", megabytes => CheckBenchmark.Run(Number(megabytes, 100))),
    ("start", program => StartBenchmark.Run(program ?? Path.Combine(AppContext.BaseDirectory, "Inspect.Station.dll"))),
    ("desk", inspections => DeskBenchmark.Run(Number(inspections, 100_000))),
};
switch (args)
{
    case ["names"]:
        Console.WriteLine(string.Join('\n', benchmarks.Select(each => each.Name)));
        return 0;
    case ["bare", var url, var folder]:
        await BareProgram.Run(url, folder);
        return 0;
    case [var name, .. var size] when Array.Find(benchmarks, each => each.Name == name).Run is { } run:
        await run(size is [var given] ? given : null);
        return 0;
    default:
        Console.Error.WriteLine($"Name one of {string.Join(", ", benchmarks.Select(each => each.Name))}, and a size if you like.");
        return 2;
}

static int Number(string? typed, int usual) => typed is null ? usual : int.Parse(typed, CultureInfo.InvariantCulture);

static Func<string?, Task> Plainly(Action run) => _ =>
{
    run();
    return Task.CompletedTask;
};
