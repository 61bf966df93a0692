namespace Inspect.Advice;

/// <summary>Something odd in what was typed. It asks for a second look and never fails a ball.</summary>
/// <param name="Kind">What kind of oddity.</param>
/// <param name="Path">The member of the sheet to look at.</param>
/// <param name="Text">One sentence for the inspector.</param>
public sealed record Hint(HintKind Kind, string Path, string Text);

/// <summary>What kind of oddity a hint is about.</summary>
public enum HintKind
{
    /// <summary>A hole that cannot lie in the ball.</summary>
    OutsideTheBall,

    /// <summary>Holes that run into each other.</summary>
    HolesMeet,

    /// <summary>A wall between holes that is very thin.</summary>
    ThinWall,

    /// <summary>A finger's or thumb's hole wider than such holes are.</summary>
    WideHole,

    /// <summary>The places of two fingers are those of the other hand.</summary>
    OtherHand,

    /// <summary>A weight that no tenpin ball has.</summary>
    Weight,

    /// <summary>The balance of the undrilled ball would be more, or less, than balls are made with.</summary>
    UndrilledBalance,

    /// <summary>The balance of the undrilled ball would point far from its mark, or far from the grip.</summary>
    UndrilledDirection,

    /// <summary>A reading differs from the ball's earlier inspection by more than the instruments allow.</summary>
    DiffersFromBefore,

    /// <summary>The change in weight or balance since is not what the change in holes takes away.</summary>
    DrillingDoesNotFit,
}

/// <summary>What an earlier inspection of the same ball recorded.</summary>
/// <param name="Sheet">The earlier sheet.</param>
/// <param name="WasRedrilled">Whether the ball is said to have been drilled since, so that its holes may differ.</param>
public sealed record EarlierInspection(Sheets.Sheet Sheet, bool WasRedrilled)
{
    /// <summary>The earlier sheet of the same ball, compared with the holes of a later one.</summary>
    public static EarlierInspection Before(Sheets.Sheet earlier, Sheets.Sheet now) =>
        new(earlier, !Holes(earlier).SequenceEqual(Holes(now)));

    /// <summary>What shows a re-drilled ball: any hole that is new, gone, wider or deeper than before.</summary>
    private static IEnumerable<(Sheets.HoleKind, Sheets.Digit?, decimal?, decimal?)> Holes(Sheets.Sheet sheet) =>
        (sheet.Holes ?? []).Select(hole => (hole.Kind, hole.Digit, hole.Diameter?.Value, hole.Depth?.Value));
}
