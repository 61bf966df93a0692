using System.Globalization;
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
    private readonly JudgingTerms? _terms;
    private readonly HashSet<(string Rule, string Subject)> _failed;
    private readonly Effort _effort;
    private readonly Lazy<(DrilledBall Even, DrilledBall? Declared)> _drilled;

    public Workbench(Sheet sheet, Edition edition, Verdict verdict, MeasuredBall ball, JudgingTerms? terms, CancellationToken stop)
    {
        (Sheet, _edition, Ball, _terms, _effort) = (sheet, edition, ball, terms, new Effort(stop));
        Limits = new EditionLimits(edition, sheet, terms);
        Rebuilt = ball.Rebuilt();
        Whole = BallDescription.Of(ball.DiameterIn, Rebuilt?.WeightOz.Best ?? 240, new Interior.Uniform());
        Inside = DeclaredInside.Of(sheet, Whole);
        _failed = [.. Failed(verdict).Select(finding => (finding.Rule, finding.Subject))];
        _drilled = new(() => (
            new DrilledBall(Whole, ball.Drilled, ball.Scale, _effort), Inside.Drilled(ball.Drilled, ball.Scale, _effort)));
    }

    public Sheet Sheet { get; }

    public MeasuredBall Ball { get; }

    /// <summary>The ball before drilling, calculated; null without a weight.</summary>
    public UndrilledBall? Rebuilt { get; }

    public EditionLimits Limits { get; }

    /// <summary>The ball before drilling, of even density.</summary>
    public BallDescription Whole { get; }

    /// <summary>What is declared of its inside.</summary>
    public DeclaredInside Inside { get; }

    /// <summary>What would newly fail on a planned sheet, and what would still fail.</summary>
    public (IReadOnlyList<Finding> Breaks, IReadOnlyList<Finding> Still) Judged(Sheet planned)
    {
        _effort.ThrowIfStopped();
        var failed = Failed(Judge.Under(_edition, planned, _terms)).ToLookup(finding => _failed.Contains((finding.Rule, finding.Subject)));
        return ([.. failed[false]], [.. failed[true]]);
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
        : _drilled.Value.Even.Changed(after);

    /// <summary>What a remedy changes, with RG and differential as far as they may be estimated.</summary>
    public RemedyEffect? Told(DrillingEffect? effect, IReadOnlyList<DrilledHole> after) =>
        effect is null ? null : Inside.Tell(effect, _drilled.Value.Declared, after);

    /// <summary>How far a hole must be cut for a goal, up to an end.</summary>
    public FurtherCut Reaching(Cut cut, int place, BalanceRemedies.Goal goal, double end) => cut == Cut.Deeper
        ? FurtherCut.Deeper(Whole, Ball.Drilled, place, goal.Axis.Unit, goal.ChangeOz, Ball.Scale, end, _effort)
        : FurtherCut.Wider(Whole, Ball.Drilled, place, goal.Axis.Unit, goal.ChangeOz, Ball.Scale, end, _effort);

    /// <summary>Whether a hole of the sheet is for gripping.</summary>
    public bool IsOfTheGrip(int index) => Sheet.Holes![index].Kind == HoleKind.Grip;

    /// <summary>Whether a finding is about the depth or width of a gripping hole.</summary>
    public bool IsOfTheGrip(Finding finding) =>
        finding.Path?.Split('[', ']') is ["holes", var index, ".depth" or ".diameter"]
        && IsOfTheGrip(int.Parse(index, CultureInfo.InvariantCulture));

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

    private static IEnumerable<Finding> Failed(Verdict verdict) => verdict.Findings.Where(finding => finding.Outcome == Outcome.Fail);

    public static Estimate Of(DrillingEffect effect, BalanceAxis axis) =>
        axis == BalanceAxis.Side ? effect.X : axis == BalanceAxis.Finger ? effect.Y : effect.Z;
}
