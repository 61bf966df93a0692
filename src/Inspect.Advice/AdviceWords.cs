using Inspect.Ball;
using Inspect.Rules.Judging;
using Inspect.Sheets;
using static Inspect.Advice.AdviceFigures;

namespace Inspect.Advice;

/// <summary>All words of advice in one place: hints, remedies, what is only an estimate, and the cautions shown with each.</summary>
public static partial class AdviceWords
{
    /// <summary>The subject of a remedy that moves all gripping holes at once.</summary>
    public const string TheGrip = "the grip";

    /// <summary>Shown above the hints.</summary>
    public const string HintsAreNoVerdict = "Look again: these are hints for a second look. They never fail a ball.";

    /// <summary>Shown above the remedies.</summary>
    public const string AdviceIsNoVerdict =
        "This is advice, computed from the readings. The owner decides, a qualified driller drills, and the scale has the last word. "
        + "Nothing may be changed during competition.";

    /// <summary>Shown with every predicted figure.</summary>
    public const string PredictionsAreNoVerdict =
        "Predicted balance, RG and differential pass or fail nothing: only a reading on the scale does.";

    internal const string NothingCures =
        "Nothing that drilling or plugging can do within these rules cures this for certain. "
            + "The ball stays out of play unless a driller plugs it and drills a new grip.";

    internal const string OnlyAnewGrip = "No deeper or wider hole cures this: the grip must be plugged and drilled again.";

    internal const string OneOfThese =
        "Each of these is a way on its own. Do one of them, weigh again, and ask again if that was not enough.";

    internal const string PlacesAreAssumed =
        "The places of the holes were not measured; those of an ordinary grip were assumed. Measure them for better advice.";

    /// <summary>Shown with predicted ounces where the constant of the scale is not known.</summary>
    public const string ScaleIsUncalibrated =
        "The scale's constant is not known: the true change in ounces may be up to two fifths more than shown here.";

    /// <summary>Shown with absolute figures that rest on declared ones; their accuracy is common practice, no source.</summary>
    public const string DeclaredTolerance = "Declared figures are only good to about 3 %, "
        + "and so are the absolute values that rest on them.";

    /// <summary>Shown with figures of a ball under 11 lb.</summary>
    public const string LightBall = "Balls under 11 lb are built differently inside, so these figures are even less certain.";
    internal const string NoBalanceHole = "A hole that is not for gripping cannot be used: these rules allow none.";

    /// <summary>Shown instead of a differential that cannot be estimated.</summary>
    public const string DifferentialRefused =
        "The ball is declared asymmetric and its high axis is not marked on the sheet, so its differential is not estimated.";

    /// <summary>What advice cannot know of a record whose event changed its own rules since.</summary>
    public static string RulesGone(IEnumerable<string> supplements) =>
        $"The event's own rules at that time ({string.Join(", ", supplements)}) were changed or removed since; "
            + "this advice does not know their limits.";

    /// <summary>The cautions shown with every advice.</summary>
    /// <remarks>Source: common practice; on bridges, drillers' published lists of what cracks a ball; on dust and plug mix, the
    /// polyurethane industry's workplace guidance.</remarks>
    public static readonly IReadOnlyList<string> Cautions =
    [
        "Take the ball out of play first. After drilling, weigh and measure all of it again.",
        "Work in steps: cut a little, weigh, cut again. What is cut away can only be plugged, and a plug has to cure.",
        "Keep at least 1/8 in between holes. Bridges crack from heat, dull bits, pressure, and from core and cover moving apart.",
        "Deeper down the bit may meet a core that is harder, heavier or brittle. Stop when feel or chips change.",
        "Take an insert or slug out before drilling deeper. Weigh the ball as it is played.",
        "Clamp the ball in a proper jig, use a sharp bit and a slow feed, clear the chips often. No gloves near the spindle; "
            + "wear eye protection.",
        "Extract the dust and wear a respirator. Fresh plug mix can hold isocyanates: protect skin and eyes too.",
        "Drilling may end the maker's warranty, and it changes how the ball rolls.",
    ];

    /// <summary>The side towards which a place lies from the grip's centre: that of its larger coordinate.</summary>
    public static string Direction(Vector towards) => Math.Abs(towards.X) >= Math.Abs(towards.Y)
        ? towards.X < 0 ? BalanceAxis.Side.Negative : BalanceAxis.Side.Positive
        : towards.Y < 0 ? BalanceAxis.Finger.Negative : BalanceAxis.Finger.Positive;

    /// <summary>What is said before the remedies of one trouble; null before a single one.</summary>
    public static string? Lead(Trouble trouble)
    {
        ArgumentNullException.ThrowIfNull(trouble);
        return trouble.Remedies.Count == 0 ? NothingCures
            : trouble.Remedies.All(remedy => remedy.Kind == RemedyKind.MoveTheGrip) ? OnlyAnewGrip
            : trouble.Remedies.Count > 1 ? OneOfThese
            : null;
    }

    /// <summary>What to do first.</summary>
    public static string Act(Remedy remedy)
    {
        ArgumentNullException.ThrowIfNull(remedy);
        return remedy.Kind switch
        {
            RemedyKind.Deepen => $"Drill the {remedy.Subject} hole to {Fraction(remedy.FirstIn!.Value, 16)} in deep, then weigh again.",
            RemedyKind.Widen => $"Drill the {remedy.Subject} hole to {Fraction(remedy.FirstIn!.Value, 64)} in wide, then weigh again.",
            RemedyKind.Plug => $"Plug the {Hole(remedy.Subject)} flush and leave it so.",
            RemedyKind.PlugAndRedrill when remedy.EndIn is { } most =>
                $"Plug the {Hole(remedy.Subject)} and drill it again, "
                    + $"no more than {Fraction(most, 64)} in {(remedy.IsAboutWidth ? "wide" : "deep")}.",
            RemedyKind.PlugAndRedrill => $"Plug the {Hole(remedy.Subject)} and drill it again without the second hole.",
            RemedyKind.AnotherPiece =>
                $"Play without {Piece(remedy.Subject)}, or have one made that is no more than {Fraction(remedy.EndIn!.Value, 64)} in "
                    + $"{(remedy.IsAboutWidth ? "wide" : "deep")}.",
            _ => $"Plug the grip and drill it again with its centre about {Fraction(remedy.FirstIn!.Value, 8)} in farther to the "
                + $"{remedy.Towards} side.",
        };
    }

    /// <summary>How far it may have to go, or null where there is no range.</summary>
    public static string? Expect(Remedy remedy)
    {
        ArgumentNullException.ThrowIfNull(remedy);
        return remedy.Kind switch
        {
            RemedyKind.Deepen or RemedyKind.Widen when remedy.MostIn is { } most => $"Expect to need {Span(remedy.LeastIn!.Value, most)}.",
            RemedyKind.Deepen or RemedyKind.Widen =>
                $"Expect to need {Span(remedy.LeastIn!.Value, remedy.EndIn!.Value)}; in light material even that may not be enough, "
                    + "and going on does not help.",
            RemedyKind.MoveTheGrip =>
                $"Expect to need {Span(remedy.LeastIn!.Value, remedy.MostIn!.Value)}, more or less, and weigh before the last hole.",
            _ => null,
        };
    }

    /// <summary>The reservations about it, one sentence each.</summary>
    public static IEnumerable<string> Reservations(Remedy remedy)
    {
        ArgumentNullException.ThrowIfNull(remedy);
        foreach (var finding in remedy.Breaks)
        {
            yield return $"It would break another rule ({Explanation.RuleTitle(finding.Rule).ToLowerInvariant()}): {finding.Reason}";
        }

        foreach (var finding in remedy.StillFails)
        {
            yield return $"It leaves another failure as it is: {Explanation.RuleTitle(finding.Rule).ToLowerInvariant()}, "
                + $"{finding.Subject}.";
        }

        if (remedy.WallAtFirst is { In: < Plausibility.ThinWallIn } first)
        {
            yield return $"Even the first cut leaves only {Hundredths(first.In)} to the {first.OtherHole} hole, "
                + "under the 1/8 in that a bridge needs.";
        }
        else if (remedy.WallAtMost is { In: < 0 } through)
        {
            yield return $"At the far end it would run into the {through.OtherHole} hole.";
        }
        else if (remedy.WallAtMost is { In: < Plausibility.ThinWallIn } most)
        {
            yield return $"At the far end only {Hundredths(most.In)} is left to the {most.OtherHole} hole, "
                + "under the 1/8 in that a bridge needs.";
        }

        if (remedy.Kind == RemedyKind.Widen)
        {
            yield return "A wider hole changes the fit: it needs an insert or slug, and that weighs too.";
        }
    }

    /// <summary>What it does to the other readings, to RG and to differential.</summary>
    public static IEnumerable<(string What, string Change)> Effects(RemedyEffect effect)
    {
        ArgumentNullException.ThrowIfNull(effect);
        yield return ("weight", $"{Range(effect.WeightOz)} oz");
        yield return ("top", $"{Range(effect.Balance.Top)} oz");
        yield return ("side", $"{Range(effect.Balance.Side)} oz");
        yield return ("finger", $"{Range(effect.Balance.Finger)} oz");
        if (effect.LowRgIn is { } rg)
        {
            yield return ("RG", GyrationChange(rg));
        }

        if (effect.TotalDifferentialIn is { } differential)
        {
            yield return ("differential", GyrationChange(differential));
        }
    }

    /// <summary>What RG and differential rest on.</summary>
    public static string BasisOf(EstimateBasis basis) => basis switch
    {
        EstimateBasis.DeclaredFigures => "RG and differential: estimates from the declared figures, over the insides such a ball may have.",
        EstimateBasis.DescribedLayers => "RG and differential: from the described layers.",
        _ => "RG and differential: an illustration for a ball of even density, "
            + "because no figures are declared or the pin's place is not given.",
    };

    /// <summary>Why a cure does not work.</summary>
    public static string DeadEnd(DeadEnd end)
    {
        ArgumentNullException.ThrowIfNull(end);
        var subject = end.Kind == RemedyKind.MoveTheGrip ? TheGrip
            : end.Kind == RemedyKind.AnotherPiece ? Piece(end.Subject)
            : $"the {Hole(end.Subject)}";
        var doing = end.Kind switch
        {
            RemedyKind.Deepen => $"deepening {subject}",
            RemedyKind.Widen => $"widening {subject}",
            RemedyKind.Plug => $"plugging {subject}",
            RemedyKind.PlugAndRedrill => $"plugging {subject} and drilling it again",
            RemedyKind.AnotherPiece => $"another piece for {subject}",
            _ => "drilling the grip elsewhere",
        };
        return Words.Capital(end.Why switch
        {
            DeadEndReason.WrongWay => $"{doing} does not help: it moves the reading the other way, or not at all.",
            DeadEndReason.TooLittle when end.MostOz is { } most => $"{doing} takes {Ounces(most)} at most, which is not enough.",
            DeadEndReason.TooLittle => $"{doing} is not enough.",
            DeadEndReason.BreaksThrough => $"{doing} would break into the next hole with the first cut.",
            _ => $"{doing} would leave the ball failed.",
        });
    }

    /// <summary>What a piece of advice is about.</summary>
    public static string Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return $"{Explanation.RuleTitle(finding.Rule)}{(finding.Subject == "ball" ? "" : $", {finding.Subject}")}: {finding.Measured}, "
            + $"{finding.Limit} allowed";
    }

    /// <summary>What the advice does not know, and what it will not offer.</summary>
    public static IEnumerable<string> LimitsOf(BallAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(advice);
        var bases = advice.Troubles.SelectMany(trouble => trouble.Remedies).Select(remedy => remedy.Effect?.Basis).OfType<EstimateBasis>()
            .Distinct();
        return new[]
        {
            PredictionsAreNoVerdict,
            advice.AllowsBalanceHole ? null : NoBalanceHole,
            advice.ArePlacesAssumed ? PlacesAreAssumed : null,
            advice.IsScaleCalibrated ? null : ScaleIsUncalibrated,
            advice.IsLightBall ? LightBall : null,
            advice.RefusedDifferential ? DifferentialRefused : null,
        }.OfType<string>().Concat(bases.Select(BasisOf));
    }

    /// <summary>The advice in a sentence or two, for a slip; null when there is none.</summary>
    public static string? Short(BallAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(advice);
        if (advice.Troubles.Count == 0)
        {
            return null;
        }

        // A grip drilled elsewhere replaces its holes, and no hole is worked on twice.
        var leading = advice.Troubles.SelectMany(trouble => trouble.Remedies.Take(1)).ToList();
        var moves = leading.Exists(way => way.Kind == RemedyKind.MoveTheGrip);
        var ways = leading.Where(way => !(moves && way.IsOfTheGrip)).DistinctBy(way => way.Subject);
        var doing = advice.Troubles.Any(trouble => trouble.Remedies.Count == 0) ? NothingCures
            : string.Join(" ", ways.Select(way => $"{Act(way)} {Expect(way)}".Trim()));
        return $"{doing} A qualified driller drills, the scale has the last word, and nothing is changed during competition.";
    }

    private static string Hole(string subject) =>
        subject.EndsWith("hole", StringComparison.Ordinal) || subject.EndsWith("vent", StringComparison.Ordinal)
        || subject.EndsWith("indentation", StringComparison.Ordinal) ? subject : subject + " hole";

    // The comma of "thumb, piece 2" would split the sentence in the wrong place.
    private static string Piece(string subject) => subject.Replace(",", "", StringComparison.Ordinal);

    private static string Span(double least, double most)
    {
        var (from, to) = (Fraction(least, 16), Fraction(most, 16));
        return from == to ? $"about {from} in" : $"{from} to {to} in";
    }
}
