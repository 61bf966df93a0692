using Inspect.Ball;
using Inspect.Sheets;
using Inspect.Sheets.Described;
using Inspect.Sheets.Form;

namespace Inspect.Advice;

/// <summary>A hole of a sheet as it is calculated with.</summary>
/// <param name="Index">Its place in the sheet.</param>
/// <param name="Name">What an inspector calls it.</param>
/// <param name="Drilled">The hole in the grip frame.</param>
/// <param name="IsPlaceAssumed">Whether its place is that of a common grip, because it was not measured.</param>
public sealed record MeasuredHole(int Index, string Name, DrilledHole Drilled, bool IsPlaceAssumed);

/// <summary>The ball of a sheet as it is calculated with, as far as it was measured;
/// vents and mill holes, which weigh next to nothing, are left out.</summary>
public sealed record MeasuredBall
{
    /// <summary>Midway between the smallest and the largest ball allowed, used when the size was not measured.</summary>
    public const double CommonDiameterIn = 8.55;

    /// <summary>The diameter in inches: as measured, from the circumference, or <see cref="CommonDiameterIn"/>.</summary>
    public required double DiameterIn { get; init; }

    /// <summary>Half the diameter, in inches.</summary>
    public double RadiusIn => DiameterIn / 2;

    /// <summary>Whether the size was not measured.</summary>
    public required bool IsSizeAssumed { get; init; }

    /// <summary>What the drilled ball weighs.</summary>
    public required double? WeightOz { get; init; }

    /// <summary>The three balance readings as one vector of the grip frame; null unless all three were taken.</summary>
    public required Vector? ReadingsOz { get; init; }

    /// <summary>The constant of the scale that read the balance; uncalibrated where the sheet gives none.</summary>
    public required ScaleConstant Scale { get; init; }

    /// <summary>The holes whose width and depth were measured and that lie in the ball.</summary>
    public required IReadOnlyList<MeasuredHole> Holes { get; init; }

    /// <summary>Holes of the sheet that are impossible: what is wrong with them, by their place in the sheet.</summary>
    public required IReadOnlyList<(int Index, string Name, DescriptionFault Fault)> Impossible { get; init; }

    /// <summary>Whether every hole was measured in width, depth and place, so that what drilling removed can be calculated.</summary>
    public required bool IsFullyMeasured { get; init; }

    /// <summary>The holes alone.</summary>
    public IReadOnlyList<DrilledHole> Drilled => [.. Holes.Select(hole => hole.Drilled)];

    /// <summary>The ball before drilling, calculated; null without weight or without a usable size.</summary>
    public UndrilledBall? Rebuilt() => WeightOz is { } weight
        ? UndrilledBall.Rebuild(DiameterIn, weight, ReadingsOz ?? Vector.Zero, Scale, Drilled)
        : null;

    /// <summary>What the sheet says of its ball, or null when its size or weight cannot be that of a ball.</summary>
    public static MeasuredBall? Of(Sheet sheet)
    {
        var (diameter, isAssumed) = Diameter(sheet.Size);
        var weight = sheet.Weights?.Gross is { } gross ? Physical.Value(gross) : (double?)null;
        try
        {
            var size = BallDescription.Of(diameter, weight ?? 1, new Interior.Uniform());
            var (holes, impossible, complete) = HolesOf(sheet, size);
            return new MeasuredBall
            {
                DiameterIn = diameter,
                IsSizeAssumed = isAssumed,
                WeightOz = weight,
                ReadingsOz = ReadingsOf(sheet.Weights),
                Scale = sheet.Weights?.ScaleConstant is { } constant ? ScaleConstant.Known(Physical.Value(constant))
                    : ScaleConstant.Uncalibrated(diameter / 2),
                Holes = holes,
                Impossible = impossible,
                IsFullyMeasured = complete,
            };
        }
        catch (DescriptionException)
        {
            return null;
        }
    }

    private static (double In, bool IsAssumed) Diameter(BallSize? size) =>
        size?.Diameters is { Count: > 0 } diameters ? (diameters.Average(Physical.Value), false)
        : size?.Circumference is { } around ? (Physical.Value(around) / Math.PI, false)
        : (CommonDiameterIn, true);

    private static Vector? ReadingsOf(Weights? weights) => weights is { LeftRight: { } side, FingerThumb: { } finger, TopBottom: { } top }
        ? new Vector(Physical.Value(side), Physical.Value(finger), Physical.Value(top))
        : null;

    private static (List<MeasuredHole> Holes, List<(int Index, string Name, DescriptionFault Fault)> Impossible, bool IsComplete) HolesOf(
        Sheet sheet, BallDescription size)
    {
        var holes = new List<MeasuredHole>();
        var impossible = new List<(int, string, DescriptionFault)>();
        var isComplete = sheet.Holes is not null;
        foreach (var (index, hole) in (sheet.Holes ?? []).Index().Where(one => one.Item.Kind is HoleKind.Grip or HoleKind.Balance))
        {
            var name = Words.Subject(hole, index);
            try
            {
                if (Describe(hole, sheet.Grip?.Hand ?? Hand.Right) is not var (drilled, isAssumed))
                {
                    isComplete = false;
                }
                else if (MassPropertiesOf.Check(size, [drilled]) is { Count: > 0 } faults)
                {
                    impossible.Add((index, name, faults[0]));
                    isComplete = false;
                }
                else
                {
                    holes.Add(new MeasuredHole(index, name, drilled, isAssumed));
                    isComplete &= !isAssumed;
                }
            }
            catch (DescriptionException refused)
            {
                impossible.Add((index, name, refused.Faults[0]));
                isComplete = false;
            }
        }

        return (holes, impossible, isComplete);
    }

    private static (DrilledHole Hole, bool IsPlaceAssumed)? Describe(Hole hole, Hand hand)
    {
        var measured = GripFrame.PlacementOf(hole.Position);
        if (hole is not { Diameter: { } diameter, Depth: { } depth } || (measured ?? CommonGrip.PlaceOf(hole.Digit, hand)) is not { } place)
        {
            return null;
        }

        var drilled = DrilledHole.Of(
            place,
            Physical.Value(diameter),
            Physical.Value(depth),
            hole.DepthTo ?? DepthTo.Axis,
            HoleBottom.Flat,
            hole.Pitch?.South is { } south ? Physical.Value(south) : 0,
            hole.Pitch?.East is { } east ? Physical.Value(east) : 0);
        return (drilled, measured is null);
    }
}
