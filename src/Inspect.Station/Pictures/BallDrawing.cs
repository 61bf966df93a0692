using Inspect.Advice;
using Inspect.Ball;
using Inspect.Sheets;
using Inspect.Station.Web;

namespace Inspect.Station.Pictures;

/// <summary>A hole as it is seen from above: an ellipse on the ball, and a line to where its axis ends.</summary>
/// <param name="Name">What an inspector calls it.</param>
/// <param name="X">The middle of the ellipse; the ball's radius is 100 and y grows downwards.</param>
/// <param name="Y">The same.</param>
/// <param name="Wide">Half its width across the line from the centre.</param>
/// <param name="Narrow">Half its width along that line, foreshortened.</param>
/// <param name="TurnDeg">How far the ellipse is turned.</param>
/// <param name="BottomX">Where the axis ends.</param>
/// <param name="BottomY">The same.</param>
/// <param name="IsBehind">Whether it starts on the far side.</param>
/// <param name="IsAssumed">Whether its place was not measured.</param>
public sealed record HoleShape(
    string Name, double X, double Y, double Wide, double Narrow, double TurnDeg, double BottomX, double BottomY, bool IsBehind,
        bool IsAssumed)
{
    private const double LetterWide = 6;
    private const double LetterHigh = 9;

    /// <summary>Whether a mark is where its name would be, so that the name goes above the hole.</summary>
    public bool IsCrowded { get; init; }

    /// <summary>Where its name is: next to it on its own side, or below it near the middle line.</summary>
    public (double X, double Y, string Anchor) Label => X switch
    {
        _ when IsCrowded => (X, Y - Wide - 5, "middle"),
        < -4 => (X - Wide - 4, Y + 4, "end"),
        > 4 => (X + Wide + 4, Y + 4, "start"),
        _ => (X, Y + Wide + 12, "middle"),
    };

    /// <summary>Whether a mark is on the name.</summary>
    public bool IsUnder(MarkShape mark)
    {
        var (x, y, anchor) = Label;
        var wide = LetterWide * Name.Length;
        var left = anchor == "end" ? x - wide : anchor == "start" ? x : x - (wide / 2);
        return mark.X > left - LetterWide && mark.X < left + wide + LetterWide && Math.Abs(mark.Y - (y - (LetterHigh / 2))) < LetterHigh;
    }
}

/// <summary>A mark on the surface as it is seen from above.</summary>
public sealed record MarkShape(string Name, double X, double Y, bool IsBehind)
{
    /// <summary>Where its name is: beside it, where no other name is.</summary>
    public (double X, double Y, string Anchor) Label { get; init; } = (X + Aside, Y - 4, "start");

    private const double Aside = 6;
    private const double LetterHigh = 10;

    /// <summary>The same mark with its name where it touches none of the others.</summary>
    /// <param name="others">The names that are placed: where, and what they are.</param>
    public MarkShape Apart(IReadOnlyList<((double X, double Y, string Anchor) At, string Name)> others)
    {
        (double X, double Y, string Anchor)[] places =
        [
            Label, (X - Aside, Y - 4, "end"), (X + Aside, Y + 12, "start"), (X - Aside, Y + 12, "end"), (X, Y - 14, "middle"),
            (X, Y + 22, "middle"),
        ];
        return this with { Label = places.FirstOrDefault(place => !others.Any(other => Touch(place, other.At, other.Name)), Label) };
    }

    private bool Touch((double X, double Y, string Anchor) here, (double X, double Y, string Anchor) there, string name) =>
        Math.Abs(here.Y - there.Y) < LetterHigh && Left(here, Name) < Left(there, name) + Svg.Width(name, Svg.LabelSize)
            && Left(there, name) < Left(here, Name) + Svg.Width(Name, Svg.LabelSize);

    private static double Left((double X, double Y, string Anchor) at, string name) =>
        at.X - (Svg.Width(name, Svg.LabelSize) * at.Anchor switch { "end" => 1, "middle" => 0.5, _ => 0 });
}

/// <summary>One row of the table behind the picture.</summary>
public sealed record HoleRow(string Name, string Diameter, string Depth, string Place, string Lean, string Wall);

/// <summary>The ball seen from above the grip's centre, to scale: fingers up, the bowler's right at the right.</summary>
public sealed record BallDrawing(
    IReadOnlyList<HoleShape> Holes, IReadOnlyList<MarkShape> Marks, IReadOnlyList<HoleRow> Rows, double? ThinnestWallIn)
{
    /// <summary>The marks of a sheet as directions.</summary>
    public static IEnumerable<(string Name, Vector Direction)> MarksOf(Sheet sheet, double radiusIn)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        foreach (var (
            name, place) in new[] { ("pin", sheet.Ball?.Pin), ("mass bias", sheet.Ball?.MassBias), ("mark", sheet.Ball?.GravityMark) })
        {
            if (GripFrame.PlacementOf(place) is { } placement)
            {
                yield return (name, GripFrame.DirectionOf(placement, radiusIn));
            }
        }
    }

    private const double Radius = 100;

    /// <summary>Draws measured holes and marks.</summary>
    /// <param name="radiusIn">The ball's radius.</param>
    /// <param name="holes">The holes, in the grip frame.</param>
    /// <param name="marks">Marks by name and direction.</param>
    public static BallDrawing Of(double radiusIn, IReadOnlyList<MeasuredHole> holes, IEnumerable<(string Name, Vector Direction)> marks)
    {
        ArgumentNullException.ThrowIfNull(holes);
        var size = BallDescription.Of(2 * radiusIn, 1, new Interior.Uniform());
        var walls = HoleWall.Between(size, [.. holes.Select(hole => hole.Drilled)]);
        MarkShape[] drawn = [.. marks.Select(
            mark => new MarkShape(mark.Name, Radius * mark.Direction.X, -Radius * mark.Direction.Y, mark.Direction.Z < 0))];
        HoleShape[] shapes =
            [.. holes.Select(hole => Shape(hole, radiusIn)).Select(shape => shape with { IsCrowded = drawn.Any(shape.IsUnder) })];
        var names = shapes.Select(shape => (shape.Label, shape.Name)).ToList();
        for (var i = 0; i < drawn.Length; i++)
        {
            drawn[i] = drawn[i].Apart(names);
            names.Add((drawn[i].Label, drawn[i].Name));
        }

        return new BallDrawing(
            shapes,
            drawn,
            [.. holes.Select(
                (hole, i) => Row(hole, radiusIn, walls.FirstOrDefault(wall => wall.First == i || wall.Second == i), holes, i))],
            walls is [var thinnest, ..] ? thinnest.WallIn : null);
    }

    private static HoleShape Shape(MeasuredHole hole, double radiusIn)
    {
        var entry = GripFrame.DirectionOf(hole.Drilled.Placement, radiusIn);
        var bottom = GripFrame.BottomOf(hole.Drilled, radiusIn) * (Radius / radiusIn);
        var wide = Radius * hole.Drilled.RadiusIn / radiusIn;
        return new HoleShape(
            hole.Name, Radius * entry.X, -Radius * entry.Y, wide, Math.Max(wide * Math.Abs(entry.Z), 0.5),
            Math.Atan2(-entry.Y, entry.X) * 180 / Math.PI, bottom.X, -bottom.Y, entry.Z < 0, hole.IsPlaceAssumed);
    }

    private static HoleRow Row(MeasuredHole hole, double radiusIn, HoleWall? wall, IReadOnlyList<MeasuredHole> holes, int index)
    {
        var drilled = hole.Drilled;
        var arc = drilled.Placement.AngleRad(radiusIn) * radiusIn;
        return new HoleRow(
            hole.Name,
            $"{Inches(drilled.DiameterIn)} in",
            $"{Inches(drilled.DepthIn)} in",
            FormattableString.Invariant($"{arc:0.00} in at {drilled.Placement.AzimuthDeg:0}°{(hole.IsPlaceAssumed ? " (assumed)" : "")}"),
            drilled.PitchIn < 1e-6 ? "none" : Lean(drilled),
            wall is null ? "–"
                : FormattableString.Invariant($"{wall.WallIn:0.00} in to {holes[wall.First == index ? wall.Second : wall.First].Name}"));
    }

    private static string Lean(DrilledHole hole)
    {
        var away = hole.PitchSouthIn == 0 ? null
            : $"{Inches(Math.Abs(hole.PitchSouthIn))} in {(hole.PitchSouthIn > 0 ? "away from" : "towards")} the middle";
        var across = hole.PitchEastIn == 0 ? null : $"{Inches(Math.Abs(hole.PitchEastIn))} in {(IsToTheRight(hole) ? "right" : "left")}";
        return string.Join(", ", new[] { away, across }.OfType<string>());
    }

    /// <summary>East at azimuth φ is (−sin φ, cos φ): for fingers growing azimuth runs to the left, for a thumb to the right.</summary>
    private static bool IsToTheRight(DrilledHole hole) => -Math.Sin(hole.Placement.AzimuthDeg * Math.PI / 180) * hole.PitchEastIn > 0;

    private static string Inches(double inches) => Math.Abs((inches * 64) - Math.Round(inches * 64)) < 1e-6
        ? AdviceFigures.Fraction(inches, 64)
        : FormattableString.Invariant($"{inches:0.###}");
}
