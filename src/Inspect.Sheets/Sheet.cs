using Inspect.Ball;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets;

/// <summary>Everything an inspector found out about one ball and one grip. What was not looked at is absent.</summary>
public sealed record Sheet
{
    /// <summary>The local date at the venue on which the ball is to be thrown. It decides the edition.</summary>
    public required DateOnly Play { get; init; }

    /// <summary>The authority whose rules apply, such as <c>us-national</c>; absent when <see cref="Edition"/> names one.</summary>
    public string? Authority { get; init; }

    /// <summary>One edition by name, such as <c>us-national/2018-08-01</c>; absent means the authority's edition in force.</summary>
    public string? Edition { get; init; }

    /// <summary>The rule ids to check; absent means every rule of the edition.</summary>
    public IReadOnlyList<string>? Plan { get; init; }

    /// <summary>How the bowler delivers the ball.</summary>
    public Grip? Grip { get; init; }

    /// <summary>What is written on the ball and known about it.</summary>
    public BallIdentity? Ball { get; init; }

    /// <summary>What was seen on the surface.</summary>
    public Marks? Marks { get; init; }

    /// <summary>Gross weight and imbalances.</summary>
    public Weights? Weights { get; init; }

    /// <summary>Diameters and circumference.</summary>
    public BallSize? Size { get; init; }

    /// <summary>The durometer readings.</summary>
    public HardnessTest? Hardness { get; init; }

    /// <summary>The roughness readings.</summary>
    public Surface? Surface { get; init; }

    /// <summary>The holes found. An empty list means that the ball has no holes, an absent one that nobody looked.</summary>
    public IReadOnlyList<Hole>? Holes { get; init; }

    /// <summary>What the station knows of the bowler and the time. A program that has no event sends it with the sheet.</summary>
    public Circumstances? Circumstances { get; init; }
}

/// <summary>How the bowler delivers this ball.</summary>
/// <param name="Hand">The delivering hand.</param>
/// <param name="Digits">The digits in a hole on every delivery.</param>
/// <param name="Demonstrated">Whether the bowler showed the inspector that all gripping holes can be used at once with one hand.</param>
public sealed record Grip(Hand? Hand, IReadOnlyList<Digit>? Digits, bool? Demonstrated);

/// <summary>What is written on the ball and known about it.</summary>
/// <param name="Maker">The maker's name.</param>
/// <param name="Model">The model's name.</param>
/// <param name="Serial">The serial number as read. Two balls may have the same one.</param>
/// <param name="Listed">Whether the model is on the list of approved balls.</param>
/// <param name="Made">When it was made, to the year, month or day.</param>
/// <param name="HouseBall">What is known of it as a house ball; absent means that it is a private ball.</param>
/// <param name="OilAbsorption">How long its surface takes to absorb oil, as published for the model; slow is over 90 min.</param>
/// <param name="HighPerformanceCore">Whether its core counts as a high-performance one.</param>
public sealed record BallIdentity(
    string? Maker,
    string? Model,
    string? Serial,
    Listing? Listed,
    MadeOn? Made,
    HouseBall? HouseBall,
    Reading? OilAbsorption = null,
    bool? HighPerformanceCore = null)
{
    /// <summary>What the maker or the list of approved balls declares for the model at this weight. Only advice uses it.</summary>
    public DeclaredFigures? Declared { get; init; }

    /// <summary>The pin, which marks the low axis.</summary>
    public SurfacePlace? Pin { get; init; }

    /// <summary>The mark of the high axis, which only asymmetric balls have.</summary>
    public SurfacePlace? MassBias { get; init; }

    /// <summary>The maker's mark of the undrilled ball's centre of gravity.</summary>
    public SurfacePlace? GravityMark { get; init; }
}

/// <summary>Declared radii of gyration: the low one, total differential, and intermediate differential of an asymmetric ball.</summary>
public sealed record DeclaredFigures(Reading? Rg, Reading? Differential, Reading? Intermediate);

/// <summary>A place on the surface, seen from the grip's centre: how far, and in which direction.</summary>
/// <remarks>The grip frame: azimuth 0 is the bowler's right and 90 degrees is towards the fingers, looking
/// at the grip with the fingers away.</remarks>
/// <param name="Arc">The distance along the surface; absent when the angle is given.</param>
/// <param name="Angle">The angle at the ball's centre; absent when the arc is given.</param>
/// <param name="Azimuth">The direction. At the grip's centre itself it means nothing.</param>
public sealed record SurfacePlace(Reading? Arc, Reading? Angle, Reading? Azimuth);

/// <summary>Which way the bottom of a hole leans: away from the grip's centre (south), and towards growing azimuth (east).</summary>
public sealed record HolePitch(Reading? South, Reading? East);

/// <summary>What decides whether a ball counts as a house ball.</summary>
/// <param name="SuppliedByCentre">Whether the host centre supplies it; a private ball left there is not a house ball.</param>
/// <param name="Shell">The material of the shell.</param>
/// <param name="Differential">The RG differential declared for the model.</param>
/// <param name="DrilledForBowler">Whether it was drilled for this bowler.</param>
public sealed record HouseBall(bool? SuppliedByCentre, Shell? Shell, Reading? Differential, bool? DrilledForBowler);

/// <summary>What was seen on the surface.</summary>
/// <param name="ModelReadable">Whether maker and model can be read.</param>
/// <param name="SerialReadable">Whether a serial can be read.</param>
/// <param name="PalmMarks">How many engraved plus marks are near the palm centre.</param>
/// <param name="ForeignMaterial">Whether there is material on the outer surface, or a plug, tape or insert that sticks out of it.</param>
/// <param name="SurfacePattern">Whether there are depressions or grooves other than holes, lettering and wear.</param>
public sealed record Marks(bool? ModelReadable, bool? SerialReadable, int? PalmMarks, bool? ForeignMaterial, bool? SurfacePattern);

/// <summary>Gross weight, and the differences between halves. The sign gives the side: top, right and finger are positive.</summary>
public sealed record Weights(Reading? Gross, Reading? TopBottom, Reading? LeftRight, Reading? FingerThumb, Reading? AnyHalves)
{
    /// <summary>The length by which the balance scale divides the moment it weighs; absent when the scale was not calibrated.</summary>
    public Reading? ScaleConstant { get; init; }
}

/// <summary>Diameters over the undrilled surface, and one circumference. A hall with a ring gauge has its limits instead.</summary>
public sealed record BallSize(IReadOnlyList<Reading>? Diameters, Reading? Circumference)
{
    /// <summary>The limits, as diameters, of a ring gauge that the ball goes through every way.</summary>
    public GaugeLimits? DiameterGauge { get; init; }

    /// <summary>The limits, as circumferences, of a ring gauge that the ball goes through every way.</summary>
    public GaugeLimits? CircumferenceGauge { get; init; }
}

/// <summary>Durometer readings, and the temperature at which they were taken.</summary>
public sealed record HardnessTest(IReadOnlyList<Reading>? Readings, Reading? Temperature);

/// <summary>Readings of the surface's roughness Ra, in several places.</summary>
public sealed record Surface(IReadOnlyList<Reading>? Roughness);

/// <summary>One hole or indentation.</summary>
public sealed record Hole
{
    /// <summary>What it is for.</summary>
    public required HoleKind Kind { get; init; }

    /// <summary>The digit it is for (gripping holes and indentations).</summary>
    public Digit? Digit { get; init; }

    /// <summary>The gripping hole a vent lies in.</summary>
    public Digit? In { get; init; }

    /// <summary>The widest diameter at any depth, the bore of an insert included.</summary>
    public Reading? Diameter { get; init; }

    /// <summary>The depth along the axis, from <see cref="DepthTo"/> to the bottom or its tip.</summary>
    public Reading? Depth { get; init; }

    /// <summary>Where the depth was measured from; absent means the surface over the hole's axis.</summary>
    public DepthTo? DepthTo { get; init; }

    /// <summary>Where the hole's axis meets the surface. Only advice and pictures use it.</summary>
    public SurfacePlace? Position { get; init; }

    /// <summary>Which way the bottom leans. Only advice and pictures use it.</summary>
    public HolePitch? Pitch { get; init; }

    /// <summary>Whether a second hole, other than a vent, lies inside it.</summary>
    public bool? SecondaryHole { get; init; }

    /// <summary>What sits in a balance hole.</summary>
    public Device? Device { get; init; }

    /// <summary>The interchangeable thumb or finger pieces that the bowler uses in this gripping hole, each gauged separately.</summary>
    public IReadOnlyList<GripPiece>? Pieces { get; init; }
}

/// <summary>The hole in one interchangeable thumb or finger piece.</summary>
/// <param name="Diameter">The widest diameter of the hole in the piece.</param>
/// <param name="Depth">The depth of the hole with this piece in place.</param>
public sealed record GripPiece(Reading? Diameter, Reading? Depth);

/// <summary>When the ball is presented, and which of the bowler's balls it is. The station fills this in.</summary>
/// <param name="BallNumber">Which of the bowler's balls at this event it is, counted from 1.</param>
/// <param name="PlayBegan">Whether the bowler's play had begun when it was presented.</param>
/// <param name="Frozen">Whether it was presented after the moment from which balls may no longer be changed.</param>
public sealed record Circumstances(int? BallNumber, bool? PlayBegan, bool? Frozen);

/// <summary>The delivering hand.</summary>
public enum Hand
{
    Left,
    Right,
}

/// <summary>A digit that a hole is for.</summary>
public enum Digit
{
    Thumb,
    Index,
    Middle,
    Ring,
    Little,
}

/// <summary>Whether the model is on the list of approved balls.</summary>
public enum Listing
{
    Yes,
    No,

    /// <summary>Nobody looked it up.</summary>
    Unknown,
}

/// <summary>The material of the shell.</summary>
public enum Shell
{
    Polyester,
    Urethane,
    Reactive,
    Other,
}

/// <summary>What a hole is for.</summary>
public enum HoleKind
{
    /// <summary>A digit goes in on every delivery.</summary>
    Grip,

    /// <summary>A dent for a digit that rests on the ball.</summary>
    Indentation,

    /// <summary>Lets air out of a gripping hole.</summary>
    Vent,

    /// <summary>A hole that held the ball when it was made.</summary>
    Mill,

    /// <summary>Drilled to change the balance; no digit goes in.</summary>
    Balance,
}

/// <summary>What sits in a hole.</summary>
public enum Device
{
    None,
    Slug,
    Tape,
    Insert,
    Interchangeable,
}
