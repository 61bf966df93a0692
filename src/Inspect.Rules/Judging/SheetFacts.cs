using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Yes, no, or not known because something was not looked at.</summary>
/// <param name="Value">Null when not known.</param>
/// <param name="Missing">The member of the sheet that would tell.</param>
internal readonly record struct FactState(bool? Value, string? Missing)
{
    public static FactState Unless(bool? value, string missing) => new(value, value is null ? missing : null);

    public static readonly FactState Yes = new(true, null);
    public static readonly FactState No = new(false, null);
}

/// <summary>Holes chosen for a rule, or the member of the sheet that would tell which they are.</summary>
internal readonly record struct ChosenHoles(IReadOnlyList<(Hole Hole, int Index)>? Holes, string? Missing);

/// <summary>Answers questions about one sheet. Where nobody looked, the answer is "not known", never a guess.</summary>
internal sealed class SheetFacts(Sheet sheet, Condition? houseBall)
{
    private readonly Dictionary<RuleQuantity, IReadOnlyList<Said>> _said = [];

    public Sheet Sheet { get; } = sheet;

    /// <summary>Every place of the sheet where a rule's quantity is read, with its reading or null; looked up once.</summary>
    public IReadOnlyList<Said> Said(RuleQuantity quantity)
    {
        if (!_said.TryGetValue(quantity, out var said))
        {
            _said[quantity] = said = [.. Catalogue.AllOf(quantity).SelectMany(member => member.On(Sheet))];
        }

        return said;
    }

    /// <summary>The limits of the gauge that the ball passed for a quantity, and the member that says so; null for none.</summary>
    public (GaugeLimits Limits, string Path)? Gauged(RuleQuantity quantity) => quantity switch
    {
        RuleQuantity.Diameters when Sheet.Size?.DiameterGauge is { } limits => (limits, "size.diameterGauge"),
        RuleQuantity.Circumference when Sheet.Size?.CircumferenceGauge is { } limits => (limits, "size.circumferenceGauge"),
        _ => null,
    };

    /// <summary>Whether a condition holds. One clause that fails decides; otherwise one that is not known leaves it open.</summary>
    public FactState Holds(Condition? condition)
    {
        var open = FactState.Yes;
        for (var i = 0; i < condition?.Clauses.Count; i++)
        {
            var answer = Put(condition.Clauses[i]);
            if (answer.Value == false)
            {
                return FactState.No;
            }

            if (answer.Value is null && open.Value == true)
            {
                open = answer;
            }
        }

        return open;
    }

    /// <summary>Whether a yes-or-no fact of the ball is true.</summary>
    public FactState Flag(Fact fact) => fact switch
    {
        Fact.Drilled => FactState.Unless(Sheet.Holes is { } holes ? holes.Count > 0 : null, "holes"),
        Fact.ThumbHole => ThumbHole(),
        Fact.ThumbHoleUsed => ThumbHoleUsed(),
        Fact.Demonstrated => FactState.Unless(Sheet.Grip?.Demonstrated, "grip.demonstrated"),
        Fact.ModelReadable => FactState.Unless(Sheet.Marks?.ModelReadable, "marks.modelReadable"),
        Fact.SerialReadable => FactState.Unless(Sheet.Marks?.SerialReadable, "marks.serialReadable"),
        Fact.ForeignMaterial => FactState.Unless(Sheet.Marks?.ForeignMaterial, "marks.foreignMaterial"),
        Fact.SurfacePattern => FactState.Unless(Sheet.Marks?.SurfacePattern, "marks.surfacePattern"),
        Fact.HighPerformanceCore => FactState.Unless(Sheet.Ball?.HighPerformanceCore, "ball.highPerformanceCore"),
        Fact.PlayBegan => FactState.Unless(Sheet.Circumstances?.PlayBegan, "circumstances.playBegan"),
        Fact.Frozen => FactState.Unless(Sheet.Circumstances?.Frozen, "circumstances.frozen"),
        Fact.HouseBall => Sheet.Ball?.HouseBall is null || houseBall is null ? FactState.No : Holds(houseBall),
        Fact.HouseBallSuppliedByCentre => FactState.Unless(Sheet.Ball?.HouseBall?.SuppliedByCentre, "ball.houseBall.suppliedByCentre"),
        Fact.HouseBallDrilledForBowler => FactState.Unless(Sheet.Ball?.HouseBall?.DrilledForBowler, "ball.houseBall.drilledForBowler"),
        _ => throw new ArgumentOutOfRangeException(nameof(fact), fact, "The ball has no such yes-or-no fact."),
    };

    /// <summary>A text on the ball, or null when it was not written down.</summary>
    public (string? Text, string Path) TextOf(Fact fact) => fact switch
    {
        Fact.Maker => (Sheet.Ball?.Maker, "ball.maker"),
        Fact.Model => (Sheet.Ball?.Model, "ball.model"),
        Fact.Serial => (Sheet.Ball?.Serial, "ball.serial"),
        _ => throw new ArgumentOutOfRangeException(nameof(fact), fact, "This fact is not a text."),
    };

    /// <summary>Whether a fact of one hole is true.</summary>
    public FactState Flag(Fact fact, Hole hole, int index, IReadOnlyList<string>? among) => fact switch
    {
        Fact.DigitUsed => Used(hole, index),
        Fact.SecondaryHole =>
            hole.SecondaryHole is { } inside ? new FactState(inside, null) : new FactState(null, $"holes[{index}].secondaryHole"),
        Fact.Device => hole.Device is { } device
            ? new FactState(among!.Contains(Words.Of(device)), null) : new FactState(null, $"holes[{index}].device"),
        _ => throw new ArgumentOutOfRangeException(nameof(fact), fact, "A hole has no such fact."),
    };

    /// <summary>The holes a rule looks at.</summary>
    public ChosenHoles Choose(HoleChoice choice)
    {
        if (Sheet.Holes is not { } holes)
        {
            return new ChosenHoles(null, "holes");
        }

        var chosen = new List<(Hole, int)>();
        for (var i = 0; i < holes.Count; i++)
        {
            if (choice.Kinds.Contains(holes[i].Kind))
            {
                chosen.Add((holes[i], i));
            }
            else if (choice.UnusedThumb && MayBeThumbHole(holes[i]))
            {
                var used = Used(holes[i], i);
                if (used.Value is null)
                {
                    return new ChosenHoles(null, used.Missing);
                }

                if (used.Value == false && holes[i].Digit == Digit.Thumb)
                {
                    chosen.Add((holes[i], i));
                }
            }
        }

        return new ChosenHoles(chosen, null);
    }

    private static bool MayBeThumbHole(Hole hole) => hole.Kind == HoleKind.Grip && hole.Digit is Digit.Thumb or null;

    private FactState Used(Hole hole, int index) => hole.Digit is not { } digit ? new FactState(null, $"holes[{index}].digit")
        : FactState.Unless(Sheet.Grip?.Digits?.Contains(digit), "grip.digits");

    private FactState ThumbHole() => Sheet.Holes is not { } holes ? new FactState(null, "holes")
        : IndexOf(holes, hole => hole is { Kind: HoleKind.Grip, Digit: Digit.Thumb }) >= 0 ? FactState.Yes
        : IndexOf(holes, MayBeThumbHole) is >= 0 and var index ? new FactState(null, FormattableString.Invariant($"holes[{index}].digit"))
        : FactState.No;

    private static int IndexOf(IReadOnlyList<Hole> holes, Func<Hole, bool> isMeant)
    {
        for (var i = 0; i < holes.Count; i++)
        {
            if (isMeant(holes[i]))
            {
                return i;
            }
        }

        return -1;
    }

    private FactState ThumbHoleUsed()
    {
        if (Sheet.Grip?.Digits is { } digits && !digits.Contains(Digit.Thumb))
        {
            return FactState.No;
        }

        if (Sheet.Holes is not { } holes)
        {
            return new FactState(null, "holes");
        }

        var open = FactState.No;
        for (var i = 0; i < holes.Count; i++)
        {
            if (MayBeThumbHole(holes[i]))
            {
                var used = Used(holes[i], i);
                if (used.Value == true)
                {
                    return FactState.Yes;
                }

                open = used.Value is null ? used : open;
            }
        }

        return open;
    }

    private FactState Put(Clause clause) => clause.Test switch
    {
        Test.Is test => Flag(clause.Fact) is var flag && flag.Value is { } value ? new FactState(value == test.Wanted, null) : flag,
        Test.Within test => Number(clause.Fact) is var (number, missing) && number is { } known
            ? new FactState(test.Limit.Allows(known), null)
            : new FactState(null, missing),
        Test.Among test => Word(clause.Fact) is var (word, missing) && word is not null
            ? new FactState(test.Words.Contains(word), null)
            : new FactState(null, missing),
        Test.Named test => TextOf(clause.Fact) is var (text, path) && text is not null
            ? new FactState(test.Names.Any(name => name.Is(text)), null)
            : new FactState(null, path),
        Test.Dated test => Dated(test),
        _ => throw new ArgumentOutOfRangeException(nameof(clause)),
    };

    private (decimal? Number, string? Missing) Number(Fact fact) => fact switch
    {
        Fact.Gross => (Sheet.Weights?.Gross?.Value, "weights.gross"),
        Fact.Temperature => (Sheet.Hardness?.Temperature?.Value, "hardness.temperature"),
        Fact.HouseBallDifferential => (Sheet.Ball?.HouseBall?.Differential?.Value, "ball.houseBall.differential"),
        Fact.OilAbsorption => (Sheet.Ball?.OilAbsorption?.Value, "ball.oilAbsorption"),
        Fact.BallNumber => (Sheet.Circumstances?.BallNumber, "circumstances.ballNumber"),
        Fact.GrippingHoles => CountOf(new HoleChoice([HoleKind.Grip, HoleKind.Indentation], false)),
        Fact.BalanceHoles => CountOf(new HoleChoice([HoleKind.Balance], false)),
        Fact.BalanceHolesWithUnusedThumb => CountOf(new HoleChoice([HoleKind.Balance], true)),
        _ => throw new ArgumentOutOfRangeException(nameof(fact), fact, "This fact is not a number."),
    };

    private (decimal?, string?) CountOf(HoleChoice choice) =>
        Choose(choice) is { Holes: { } holes } ? (holes.Count, null) : (null, Choose(choice).Missing);

    private (string? Word, string Missing) Word(Fact fact) => fact switch
    {
        Fact.Listed => (Sheet.Ball?.Listed is { } listed and not Listing.Unknown ? Words.Of(listed) : null, "ball.listed"),
        Fact.HouseBallShell => (Sheet.Ball?.HouseBall?.Shell is { } shell ? Words.Of(shell) : null, "ball.houseBall.shell"),
        _ => throw new ArgumentOutOfRangeException(nameof(fact), fact, "This fact is not a word."),
    };

    private FactState Dated(Test.Dated test) => Sheet.Ball?.Made is not { } made ? new FactState(null, "ball.made")
        : made.Last < test.Day ? new FactState(test.Before, null)
        : made.First >= test.Day ? new FactState(!test.Before, null)
        : new FactState(null, "ball.made");
}
