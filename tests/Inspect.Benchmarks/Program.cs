using Inspect.Benchmarks;

// Each line is a median and its ratio to a reference measured in the same run: the ratio travels between machines, the time does not.
var grip = new GripInTheCalibratedBody();
var closedForms = Stopwatch.Median(grip.ByClosedForms);
var computed = Stopwatch.Median(grip.Compute);
var chart = Stopwatch.Median(grip.DrawDepthChart);

Report.Line("three radial holes, plain closed forms, even ball", closedForms, closedForms);
Report.Line("three holes in the calibrated body", computed, closedForms);
Report.Line("depth chart, 73 points, all plausible insides", chart, computed);
