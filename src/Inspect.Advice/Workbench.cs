using Inspect.Ball;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Described;
using Inspect.Sheets.Readings;

namespace Inspect.Advice;

/// <summary>One failed ball on the bench: what is known of it, its edition's limits, and the questions asked of every remedy.</summary>
internal sealed class Workbench
{
    private readonly Edition _edition;
    private readonly Verdict _verdict;
    private readonly JudgingTerms? _terms;

    public Workbench(Sheet sheet, Edition edition, Verdict verdict, MeasuredBall ball, JudgingTerms? terms)
    {
        (Sheet, _edition, _verdict, Ball, _terms) = (sheet, edition, verdict, ball, terms);
        Limits = new EditionLimits(edition, sheet, terms);
        Whole = BallDescription.Of(ball.DiameterIn, ball.Rebuilt()?.WeightOz.Best ?? 240, new Interior.Uniform());
        Inside = DeclaredInside.Of(sheet, Whole);
    }

    public Sheet Sheet { get; }

    public MeasuredBall Ball { get; }

    public EditionLimits Limits { get; }

    /// <summary>The ball before drilling, of even density.</summary>
    public BallDescription Whole { get; }

    /// <summary>What is declared of its inside.</summary>
    public DeclaredInside Inside { get; }

    /// <summary>What would newly fail on a planned sheet, and what would still fail.</summary>
    public (IReadOnlyList<Finding> Breaks, IReadOnlyList<Finding> Still) Judged(Sheet planned)
    {
        var failed = Judge.Under(_edition, planned, _terms).Findings.Where(finding => finding.Outcome == Outcome.Fail).ToList();
        var before = _verdict.Findings.Where(finding => finding.Outcome == Outcome.Fail).Select(finding => (finding.Rule, finding.Subject))
            .ToHashSet();
        return ([.. failed.Where(finding => !before.Contains((finding.Rule, finding.Subject)))],
            [.. failed.Where(finding => before.Contains((finding.Rule, finding.Subject)))]);
    }

    /// <summary>The planned sheet with the weight and the balance that a change of
    /// holes is estimated to give; the reading being cured is at its goal.</summary>
    public Sheet Weighed(Sheet planned, DrillingEffect? effect, BalanceAxis? cured = null, decimal goalOz = 0)
    {
        if (effect is null || Ball.WeightOz is not { } weight)
        {
            return planned;
        }

        var sheet = PlannedSheet.WithGross(planned, weight + effect.WeightOz.Best);
        foreach (var axis in BalanceAxis.All.Where(axis => axis.On(Sheet.Weights) is not null))
        {
            var now = Physical.Value(axis.On(Sheet.Weights)!);
            sheet = PlannedSheet.WithReading(
                sheet, axis, axis == cured ? goalOz : Math.Round(Seam.ToDecimal(now + Of(effect, axis).Best), 2));
        }

        return sheet;
    }

    /// <summary>The effect of other holes on weight and balance, in the grip frame; null when they cannot be drilled.</summary>
    public DrillingEffect? Effect(IReadOnlyList<DrilledHole> after) =>
        MassPropertiesOf.Check(Whole, after).Count > 0 || MassPropertiesOf.Check(Whole, Ball.Drilled).Count > 0
        ? null
        : DrillingEffect.Of(Whole, Ball.Drilled, after, Ball.Scale);

    /// <summary>What a remedy changes, with RG and differential as far as they may be estimated.</summary>
    public RemedyEffect? Told(DrillingEffect? effect, IReadOnlyList<DrilledHole> after) =>
        effect is null ? null : Inside.Tell(effect, Ball.Drilled, after, Ball.Scale);

    /// <summary>The holes with the one at a place replaced, or left out.</summary>
    public IReadOnlyList<DrilledHole> With(int place, DrilledHole? instead) =>
        [.. Ball.Holes.Select((hole, i) => i == place ? instead : hole.Drilled).OfType<DrilledHole>()];

    /// <summary>The thinnest wall between a hole and its neighbours when it is drilled so.</summary>
    public Wall? WallAt(int place, DrilledHole hole)
    {
        var after = With(place, hole);
        if (MassPropertiesOf.Check(Whole, after).Count > 0)
        {
            return null;
        }

        return HoleWall.Between(Whole, after).FirstOrDefault(wall => wall.First == place || wall.Second == place) is { } wall
            ? new Wall(wall.WallIn, Ball.Holes[wall.First == place ? wall.Second : wall.First].Name)
            : null;
    }

    public static Estimate Of(DrillingEffect effect, BalanceAxis axis) =>
        axis == BalanceAxis.Side ? effect.X : axis == BalanceAxis.Finger ? effect.Y : effect.Z;
}
