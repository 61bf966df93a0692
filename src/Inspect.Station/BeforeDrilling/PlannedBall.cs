using Inspect.Advice;
using Inspect.Ball;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Pictures;

namespace Inspect.Station.BeforeDrilling;

/// <summary>One way to drill a ball: what the rules say of its holes, and what it is estimated to weigh and balance.</summary>
public sealed record PlannedBall
{
    /// <summary>The rules that a plan alone can meet or break; all others need the drilled ball.</summary>
    private static readonly string[] RulesOfHoles =
        ["grip-hole-count", "one-hole-per-digit", "grip-hole-use", "grip-hole-diameter", "grip-hole-depth", "void-in-hole", "balance-hole",
        "palm-mark"];

    public required string Title { get; init; }

    /// <summary>The verdict of the rules that look at holes only.</summary>
    public required Verdict Verdict { get; init; }

    public required Estimate WeightOz { get; init; }

    /// <summary>Side, finger and top as a scale would show them; without the undrilled ball's top weight only their change.</summary>
    public required BalanceDrawing Balance { get; init; }

    /// <summary>Change of the low RG by all the holes.</summary>
    public required Estimate? LowRg { get; init; }

    /// <summary>Change of the total differential by all the holes; nothing where it may not be told.</summary>
    public required Estimate? Differential { get; init; }

    /// <summary>The declared low RG and total differential after drilling, in rounded words; nothing without declared figures.</summary>
    public required string? LowRgAfter { get; init; }

    /// <summary>The same for the total differential.</summary>
    public required string? DifferentialAfter { get; init; }

    public required double? ThinnestWallIn { get; init; }

    /// <summary>Whether two holes run into each other or leave a wall too thin.</summary>
    public bool IsWallThin => ThinnestWallIn is < Plausibility.ThinWallIn;

    internal static PlannedBall Of(string title, Sheet sheet, PlanForm form, BallDescription whole, DeclaredInside inside, Edition edition)
    {
        var ball = MeasuredBall.Of(sheet)!;
        var scale = ball.Scale;
        var statics = DrillingEffect.Of(whole, [], ball.Drilled, scale);
        var told = inside.Tell(statics, [], ball.Drilled, scale);
        var weight = Plus(statics.WeightOz, form.GrossOz!.Value);
        var before = Undrilled(form, whole.RadiusIn);
        var judged = sheet with
        {
            Plan = [.. RulesOfHoles],
            Weights = sheet.Weights! with { Gross = Ounces(weight.Best) },
        };
        var declared = inside.Ball.Interior as Interior.Calibrated;
        return new PlannedBall
        {
            Title = title,
            Verdict = Inspect.Rules.Judging.Judge.Under(edition, judged),
            WeightOz = weight,
            Balance = BalanceDrawing.Predicted(
                (Plus(statics.X, before.X), Plus(statics.Y, before.Y), Plus(statics.Z, before.Z)), new EditionLimits(edition, judged)),
            LowRg = told.LowRgIn,
            Differential = told.TotalDifferentialIn,
            LowRgAfter = declared is null || told.LowRgIn is not { } rg ? null : Rounded(Plus(rg, declared.LowRgIn), 0.01, "0.00"),
            DifferentialAfter = declared is null || told.TotalDifferentialIn is not { } differential
                ? null
                : Rounded(Plus(differential, declared.DifferentialIn), 0.005, "0.000"),
            ThinnestWallIn = statics.ThinnestWallIn,
        };
    }

    /// <summary>The undrilled ball's balance in the grip frame: its top weight towards its mark, or straight up where the mark is not
    /// placed.</summary>
    private static Vector Undrilled(PlanForm form, double radiusIn)
    {
        var towards = GripFrame.PlacementOf(form.Sheet.Ball?.GravityMark) is { } mark ? GripFrame.DirectionOf(mark, radiusIn)
            : Vector.UnitZ;
        return towards * (form.TopOz ?? 0);
    }

    private static Estimate Plus(Estimate change, double start) => new(start + change.Low, start + change.Best, start + change.High);

    /// <summary>A range in steps that say no more than is known, outwards.</summary>
    private static string Rounded(Estimate value, double step, string format)
    {
        var (low, high) = (Math.Floor((value.Low / step) + 1e-6) * step, Math.Ceiling((value.High / step) - 1e-6) * step);
        var culture = System.Globalization.CultureInfo.InvariantCulture;
        return $"{low.ToString(format, culture)} to {high.ToString(format, culture)} in";
    }

    private static Reading Ounces(double ounces) => ReadingParser.Parse(
        Math.Round(ounces, 1).ToString("0.#", System.Globalization.CultureInfo.InvariantCulture) + " oz", Quantity.Weight).Reading!;
}
