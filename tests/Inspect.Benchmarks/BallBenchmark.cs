using Inspect.Advice;
using Inspect.Rules.Judging;

namespace Inspect.Benchmarks;

/// <summary>Measures the drilled ball, and hints and advice on a legal sheet and five that failed, each
/// beside a reference of the same run.</summary>
internal static class BallBenchmark
{
    public static void Run()
    {
        Report.Head();
        var grip = new GripInTheCalibratedBody();
        var mass = Cost.Of(grip.Compute);
        Report.Line("mass of three holes in the calibrated ball", mass, "closed forms, even ball", Cost.Of(grip.ByClosedForms));
        Report.Line("depth chart of 73 points", Cost.Of(grip.DrawDepthChart), "one mass", mass);
        var edition = FailedSheets.Edition();
        foreach (var (what, sheet) in FailedSheets.All)
        {
            var verdict = Judge.Under(edition, sheet);
            var judging = Cost.Of(() => Judge.Under(edition, sheet).Findings.Count);
            Report.Line($"remedies: {what}", Cost.Of(() => Remedies.For(sheet, edition, verdict).Troubles.Count), "one judging", judging);
            Report.Line($"hints: {what}", Cost.Of(() => Plausibility.Hints(sheet).Count), "one judging", judging);
        }
    }
}
