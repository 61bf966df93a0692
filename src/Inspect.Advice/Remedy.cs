using Inspect.Ball;
using Inspect.Rules.Judging;

namespace Inspect.Advice;

/// <summary>What a driller could do.</summary>
public enum RemedyKind
{
    /// <summary>Drill a gripping hole deeper.</summary>
    Deepen,

    /// <summary>Drill a gripping hole wider.</summary>
    Widen,

    /// <summary>Fill a hole and leave it so.</summary>
    Plug,

    /// <summary>Fill a hole and drill it again within the limit.</summary>
    PlugAndRedrill,

    /// <summary>Play without an interchangeable piece, or have one made within the limit.</summary>
    AnotherPiece,

    /// <summary>Fill all gripping holes and drill the grip again with its centre elsewhere.</summary>
    MoveTheGrip,
}

/// <summary>One legal way to cure what failed, as far as it can be told before the scale decides.</summary>
public sealed record Remedy
{
    /// <summary>What would be done.</summary>
    public required RemedyKind Kind { get; init; }

    /// <summary>The hole it works on, as an inspector calls it; the grip as a whole for a move.</summary>
    public required string Subject { get; init; }

    /// <summary>The hole's place in the sheet; null for a move of the grip.</summary>
    public int? Hole { get; init; }

    /// <summary>Whether that is a gripping hole, which a grip drilled elsewhere replaces.</summary>
    public bool IsOfTheGrip { get; init; }

    /// <summary>The first cut to make before weighing again, in inches: a depth, a diameter or a way along the surface. It is what dense
    /// material needs, rounded down.</summary>
    public double? FirstIn { get; init; }

    /// <summary>The least that may turn out to be needed: in dense material.</summary>
    public double? LeastIn { get; init; }

    /// <summary>The most that may turn out to be needed, in light material; null when even the most is then too little.</summary>
    public double? MostIn { get; init; }

    /// <summary>Where the range ends in any case: the limit, or the depth beyond which deepening works backwards.</summary>
    public double? EndIn { get; init; }

    /// <summary>Whether the hole drilled again is bound by its width; by its depth otherwise.</summary>
    public bool IsAboutWidth { get; init; }

    /// <summary>The side to which the grip's centre moves.</summary>
    public string? Towards { get; init; }

    /// <summary>The thinnest wall to another hole at the first cut, with that hole's name.</summary>
    public Wall? WallAtFirst { get; init; }

    /// <summary>The thinnest wall to another hole at the far end of the range.</summary>
    public Wall? WallAtMost { get; init; }

    /// <summary>What the rules would say against it: findings that pass or hold now and would fail then.</summary>
    public IReadOnlyList<Finding> Breaks { get; init; } = [];

    /// <summary>What failed before and still would.</summary>
    public IReadOnlyList<Finding> StillFails { get; init; } = [];

    /// <summary>What it does to weight, balance, RG and differential, estimated; null where the holes are not known well enough.</summary>
    public RemedyEffect? Effect { get; init; }

    /// <summary>Whether it breaks no other limit and leaves no thin wall.</summary>
    public bool IsClear => Breaks.Count == 0 && WallAtFirst is not { In: < Plausibility.ThinWallIn };
}

/// <summary>The material left between two holes.</summary>
public sealed record Wall(double In, string OtherHole);

/// <summary>What a remedy is estimated to change.</summary>
/// <param name="Balance">Change of side, finger and top readings in ounces.</param>
/// <param name="WeightOz">Change of the weight.</param>
/// <param name="LowRgIn">Change of the low RG; null where the inside may not be estimated.</param>
/// <param name="TotalDifferentialIn">Change of the total differential; null
/// where the high axis is not known or the inside may not be estimated.</param>
/// <param name="Basis">What RG and differential rest on.</param>
public sealed record RemedyEffect(
    (Estimate Side, Estimate Finger, Estimate Top) Balance, Estimate WeightOz, Estimate? LowRgIn, Estimate? TotalDifferentialIn,
        EstimateBasis Basis);

/// <summary>A cure that was considered and does not work.</summary>
/// <param name="Kind">What would have been done.</param>
/// <param name="Subject">The hole.</param>
/// <param name="MostOz">The most it could change of the reading; null when that is not the reason.</param>
/// <param name="Why">Why it does not work.</param>
public sealed record DeadEnd(RemedyKind Kind, string Subject, double? MostOz, DeadEndReason Why);

/// <summary>Why a cure does not work.</summary>
public enum DeadEndReason
{
    /// <summary>It moves the reading the other way, or not at all.</summary>
    WrongWay,

    /// <summary>It moves the reading the right way, but not far enough.</summary>
    TooLittle,

    /// <summary>It would break into another hole at the first cut.</summary>
    BreaksThrough,

    /// <summary>The rules would still, or newly, fail the ball.</summary>
    StillFails,
}

/// <summary>What can be done about one thing that failed.</summary>
/// <param name="Finding">What failed.</param>
/// <param name="Remedies">Every legal way, the clearest first; empty when nothing cures it.</param>
/// <param name="DeadEnds">What was considered and does not work.</param>
public sealed record Trouble(Finding Finding, IReadOnlyList<Remedy> Remedies, IReadOnlyList<DeadEnd> DeadEnds);

/// <summary>The advice on a failed ball.</summary>
/// <param name="Troubles">What failed on balance or on a hole, each with its remedies.</param>
/// <param name="ArePlacesAssumed">Whether the places of a common grip were assumed for holes, because theirs were not measured.</param>
/// <param name="IsScaleCalibrated">Whether the balance scale's constant is known.</param>
/// <param name="IsLightBall">Whether the ball is under 11 lb, whose inside is built differently.</param>
/// <param name="AllowsBalanceHole">Whether the edition allows a balance hole at all.</param>
/// <param name="RefusedDifferential">Whether a declared asymmetric ball lacks its mark, so that no differential is estimated.</param>
public sealed record BallAdvice(
    IReadOnlyList<Trouble> Troubles, bool ArePlacesAssumed, bool IsScaleCalibrated, bool IsLightBall, bool AllowsBalanceHole,
        bool RefusedDifferential);
