using Inspect.Ball;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Advice;

/// <summary>Finds every legal way to cure a ball that failed on balance or on a hole; where there is none, it says so.</summary>
/// <remarks>Never a hole that is not for gripping, and never a verdict: the driller drills, the scale decides.</remarks>
public static class Remedies
{
    /// <summary>The advice on a ball, empty when nothing failed that drilling or plugging could touch.</summary>
    /// <param name="sheet">What was measured.</param>
    /// <param name="edition">The rules it was judged under; every limit comes from them.</param>
    /// <param name="verdict">The verdict.</param>
    /// <param name="terms">What the event adds to the edition.</param>
    /// <param name="stop">Ends the search with <see cref="OperationCanceledException"/> when nobody waits for it any more.</param>
    public static BallAdvice For(
        Sheet sheet, Edition edition, Verdict verdict, JudgingTerms? terms = null, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(verdict);
        var ball = MeasuredBall.Of(sheet);
        var work = ball is null ? null : new Workbench(sheet, edition, verdict, ball, terms, stop);
        var troubles = verdict.Findings.Where(finding => finding.Outcome == Outcome.Fail).Select(finding => Of(finding, sheet, work))
            .OfType<Trouble>().ToList();
        return new BallAdvice(
            troubles,
            ball?.Holes.Any(hole => hole.IsPlaceAssumed) == true,
            ball?.Scale.IsCalibrated == true,
            ball?.WeightOz < BallDescription.LightOz,
            new EditionLimits(edition, sheet, terms).AllowsBalanceHole,
            work?.Inside.LacksMark == true);
    }

    private static Trouble? Of(Finding finding, Sheet sheet, Workbench? work)
    {
        if (BalanceAxis.All.FirstOrDefault(axis => axis.Path == finding.Path) is { } axis)
        {
            return work is { Ball.WeightOz: not null } ? BalanceRemedies.For(finding, axis, work) : new Trouble(finding, [], []);
        }

        return finding.Path?.StartsWith("holes", StringComparison.Ordinal) == true && sheet.Holes is { Count: > 0 } && work is not null
            ? HoleRemedies.For(finding, work)
            : null;
    }
}
