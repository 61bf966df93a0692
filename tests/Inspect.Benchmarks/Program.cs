using System.Globalization;
using Inspect.Benchmarks;
using Inspect.Benchmarks.Desk;
using Inspect.Benchmarks.Slips;

// Each line is a time and its ratio to a reference measured in the same run: the ratio travels between machines, the time does not.
// "desk [N]" measures the director's desk over N recorded inspections (1,000,000 when left out); nothing measures the drilled ball.
if (args is ["desk", ..])
{
    await DeskBenchmark.Run(args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 1_000_000);
    return;
}

if (args is ["slip"])
{
    SlipBenchmark.Run();
    return;
}

var grip = new GripInTheCalibratedBody();
var closedForms = Stopwatch.Median(grip.ByClosedForms);
var computed = Stopwatch.Median(grip.Compute);
var chart = Stopwatch.Median(grip.DrawDepthChart);

Report.Line("three radial holes, plain closed forms, even ball", closedForms, closedForms);
Report.Line("three holes in the calibrated body", computed, closedForms);
Report.Line("depth chart, 73 points, all plausible insides", chart, computed);
