namespace Inspect.Station.Judge;

#pragma warning disable CA1819 // These types only describe documents; they are never read or written as such.

/// <summary>A sheet as programs write it. Every reading is text with its unit, such as "1 9/16 in", "15 lb 1 oz" or "-0.5 oz".</summary>
/// <param name="Play">The local date at the venue on which the ball is to be thrown.</param>
/// <param name="Authority">Whose rules: the edition in force on the day of play is used.</param>
/// <param name="Edition">One named edition instead, such as "us-national/2018-08-01".</param>
/// <param name="Plan">The rule ids to check; absent means every rule of the edition.</param>
/// <param name="Grip">How the bowler delivers the ball.</param>
/// <param name="Ball">What is written on the ball and known about it.</param>
/// <param name="Marks">What the surface shows.</param>
/// <param name="Weights">Gross weight and imbalances; a sign is a side: top, right and finger are positive.</param>
/// <param name="Size">Diameters and circumference.</param>
/// <param name="Hardness">Durometer readings, Shore D.</param>
/// <param name="Holes">The holes found: an empty list says there are none, an absent one that nobody looked.</param>
public sealed record SheetDocument(
    DateOnly Play,
    string? Authority,
    string? Edition,
    string[]? Plan,
    GripDocument? Grip,
    BallDocument? Ball,
    MarksDocument? Marks,
    WeightsDocument? Weights,
    SizeDocument? Size,
    HardnessDocument? Hardness,
    HoleDocument[]? Holes);

/// <summary>How the bowler delivers the ball.</summary>
/// <param name="Hand">left or right.</param>
/// <param name="Digits">The digits in a hole on every delivery: thumb, index, middle, ring, little.</param>
/// <param name="Demonstrated">All gripping holes can be used at once with one hand.</param>
public sealed record GripDocument(string? Hand, string[]? Digits, bool? Demonstrated);

/// <summary>What is written on the ball and known about it.</summary>
/// <param name="Maker">The maker.</param>
/// <param name="Model">The model.</param>
/// <param name="Serial">The serial as read.</param>
/// <param name="Listed">yes, no or unknown: whether it is on the list of approved balls.</param>
/// <param name="Made">yyyy, yyyy-mm or a date.</param>
/// <param name="HouseBall">What is known of it as a house ball; null or absent for a private ball.</param>
/// <param name="OilAbsorption">How long the cover takes to absorb the test oil, such as "95 min".</param>
/// <param name="HighPerformanceCore">Whether it has a high-performance core.</param>
public sealed record BallDocument(
    string? Maker,
    string? Model,
    string? Serial,
    string? Listed,
    string? Made,
    HouseBallDocument? HouseBall,
    string? OilAbsorption,
    bool? HighPerformanceCore)
{
    /// <summary>What is declared of the model at this weight; only advice uses it.</summary>
    public DeclaredDocument? Declared { get; init; }

    /// <summary>The pin, seen from the grip's centre.</summary>
    public PlaceDocument? Pin { get; init; }

    /// <summary>The mark of the high axis of an asymmetric ball.</summary>
    public PlaceDocument? MassBias { get; init; }

    /// <summary>The maker's mark of the undrilled ball's centre of gravity.</summary>
    public PlaceDocument? GravityMark { get; init; }
}

/// <summary>Declared radius of gyration and differentials, such as "2.480 in".</summary>
public sealed record DeclaredDocument(string? Rg, string? Differential, string? Intermediate);

/// <summary>A place on the surface seen from the grip's centre: azimuth 0 is the bowler's right, 90 deg is towards the fingers.</summary>
/// <param name="Arc">The distance along the surface, or instead:</param>
/// <param name="Angle">the angle at the ball's centre.</param>
/// <param name="Azimuth">The direction, such as "106 deg".</param>
public sealed record PlaceDocument(string? Arc, string? Angle, string? Azimuth);

/// <summary>How far a hole's bottom leans away from the grip's centre (south) and towards growing azimuth (east).</summary>
public sealed record PitchDocument(string? South, string? East);

/// <summary>What decides whether a ball is a house ball.</summary>
/// <param name="SuppliedByCentre">The host centre supplies it.</param>
/// <param name="Shell">polyester, urethane, reactive or other.</param>
/// <param name="Differential">The declared RG differential, such as "0.020 in".</param>
/// <param name="DrilledForBowler">It was drilled for this bowler.</param>
public sealed record HouseBallDocument(bool? SuppliedByCentre, string? Shell, string? Differential, bool? DrilledForBowler);

/// <summary>What the surface shows.</summary>
public sealed record MarksDocument(bool? ModelReadable, bool? SerialReadable, int? PalmMarks, bool? ForeignMaterial, bool? SurfacePattern);

/// <summary>Gross weight and imbalances.</summary>
public sealed record WeightsDocument(string? Gross, string? TopBottom, string? LeftRight, string? FingerThumb, string? AnyHalves)
{
    /// <summary>The length by which the balance scale divides what it weighs, where the scale was calibrated.</summary>
    public string? ScaleConstant { get; init; }
}

/// <summary>Diameters and circumference.</summary>
public sealed record SizeDocument(string[]? Diameters, string? Circumference);

/// <summary>Durometer readings and the temperature they were taken at.</summary>
public sealed record HardnessDocument(string[]? Readings, string? Temperature);

/// <summary>One hole or indentation.</summary>
/// <param name="Kind">grip, indentation, vent, mill or balance.</param>
/// <param name="Digit">The digit it is for (grip, indentation).</param>
/// <param name="In">The gripping hole a vent lies in.</param>
/// <param name="Diameter">The widest diameter.</param>
/// <param name="Depth">The depth.</param>
/// <param name="SecondaryHole">Whether a second hole other than a vent lies inside (grip).</param>
/// <param name="Device">none, slug, tape, insert or interchangeable (balance).</param>
/// <param name="Pieces">The interchangeable pieces that the bowler uses in it (grip).</param>
public sealed record HoleDocument(
    string Kind, string? Digit, string? In, string? Diameter, string? Depth, bool? SecondaryHole, string? Device, PieceDocument[]? Pieces)
{
    /// <summary>axis or rim: where the depth was measured from; absent means the surface over the hole's axis.</summary>
    public string? DepthTo { get; init; }

    /// <summary>Where the hole starts; only advice and pictures use it.</summary>
    public PlaceDocument? Position { get; init; }

    /// <summary>Which way it leans.</summary>
    public PitchDocument? Pitch { get; init; }
}


/// <summary>One interchangeable thumb or finger piece.</summary>
public sealed record PieceDocument(string? Diameter, string? Depth);

/// <summary>A verdict as programs read it.</summary>
/// <param name="Outcome">pass, fail or hold.</param>
/// <param name="Cause">no-edition, when no edition is in force on the day of play.</param>
/// <param name="Edition">The edition judged under and the hash of its file.</param>
/// <param name="Supplements">The event's own rules it was judged under.</param>
/// <param name="Decision">guarded-acceptance or guarded-rejection, where the event sets one.</param>
/// <param name="GuardFactor">The width of the guard band in standard uncertainties.</param>
/// <param name="Findings">One for each rule that applies, in the edition's order, then the supplements'.</param>
/// <param name="NotChecked">The rules outside the plan.</param>
/// <param name="Notes">Advice; not rules.</param>
public sealed record VerdictDocument(
    string Outcome,
    string? Cause,
    EditionDocument? Edition,
    SupplementDocument[]? Supplements,
    string? Decision,
    string? GuardFactor,
    FindingDocument[] Findings,
    string[]? NotChecked,
    NoteDocument[]? Notes);

/// <summary>A supplement, its version and the SHA-256 of its file.</summary>
public sealed record SupplementDocument(string Id, DateOnly Version, string Sha256);

/// <summary>Who confirmed a limit, when, and from which document.</summary>
public sealed record ConfirmedDocument(string By, DateOnly On, string Document);

/// <summary>An edition and the SHA-256 of its file.</summary>
public sealed record EditionDocument(string Id, string Sha256);

/// <summary>What one rule says.</summary>
/// <param name="Rule">The rule's id.</param>
/// <param name="Subject">ball, or the hole as an inspector calls it.</param>
/// <param name="Path">The member of the sheet that was read or is missing.</param>
/// <param name="Outcome">pass, fail or hold.</param>
/// <param name="Cause">not-measured, near-limit, limit-unconfirmed, discretion or rule-error.</param>
/// <param name="Measured">The reading as typed.</param>
/// <param name="Limit">What is allowed.</param>
/// <param name="Margin">Signed, in the notation of the reading; negative is outside.</param>
/// <param name="Reason">One sentence.</param>
/// <param name="Reference">Where the rule was read.</param>
/// <param name="Supplement">The supplement that set it, where the edition did not.</param>
/// <param name="Conformance">The probability that the ball conforms, near a limit whose uncertainty is known.</param>
/// <param name="Confirmed">Who confirmed the limit, where it was known from memory.</param>
public sealed record FindingDocument(
    string Rule,
    string Subject,
    string? Path,
    string Outcome,
    string? Cause,
    string? Measured,
    string? Limit,
    string? Margin,
    string Reason,
    ReferenceDocument Reference,
    string? Supplement,
    string? Conformance,
    ConfirmedDocument? Confirmed);

/// <summary>Where a rule was read, and how sure that is: official, reprint, summary or memory.</summary>
public sealed record ReferenceDocument(string Title, string? Section, string Basis);

/// <summary>Advice shown with a verdict; it is not a rule.</summary>
public sealed record NoteDocument(string Id, string Text);
