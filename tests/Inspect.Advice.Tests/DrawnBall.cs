using System.Globalization;
using Inspect.Ball;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Advice.Tests;

/// <summary>A plausible drilled ball drawn at random, and what an inspector with ordinary instruments would type of it.</summary>
/// <remarks>
/// <para>The ball (common practice and memory, no source): 8.505 to 8.590 in, 13 to 15 lb 14 oz undrilled; cover 0.4 to 0.8 in of 1.12 to
/// 1.24 g/cm³, a round core of 50 to 100 in³ and 1.6 to 2.4 g/cm³, filler as the weight asks; undrilled top weight 2 to 4 1/2 oz towards a
/// point up to 1 1/4 in from the grip's centre; maker's mark within about 1/4 in (standard deviation) of that point. Grip: thumb 15/16 to 1
/// 3/16 in wide, 2 to 3 in deep; two fingers 13/16 to 31/32 in wide, 1 1/4 to 2 in deep, outward pitch 1/4 to 1/2 in; drawn again until at
/// least 1/4 in is left between them.</para>
/// <para>The errors (standard deviations): weight 0.15 oz, read to the eighth; balance 1/16 oz and 0.04 oz of placement, read
/// to the eighth; diameter 1/128 in; depth 1/32 in; arc 1/32 in; azimuth 1 degree; pitch 1/32 in; scale's constant 3 %; size
/// 0.005 in; the mark's place 1/16 in.</para>
/// </remarks>
internal sealed class DrawnBall
{
    private const double ScaleIn = 4.0;

    private readonly BallDescription _whole;
    private readonly Vector _undrilled;
    private readonly Vector _mark;
    private readonly List<(Digit Digit, DrilledHole Hole)> _holes;

    private DrawnBall(BallDescription whole, Vector undrilled, Vector mark, List<(Digit, DrilledHole)> holes) =>
        (_whole, _undrilled, _mark, _holes) = (whole, undrilled, mark, holes);

    public static DrawnBall Draw(Random random)
    {
        while (true)
        {
            if (Layered(random) is { } whole && Grip(random, whole) is { } holes)
            {
                var (arc, azimuth) = (random.NextDouble() * 1.25, random.NextDouble() * 360);
                var undrilled =
                    GripFrame.DirectionOf(HolePlacement.AtArc(arc, azimuth), whole.RadiusIn) * (Between(random, 2, 4.5) * ScaleIn);
                return new DrawnBall(whole, undrilled, Shifted(random, undrilled, 0.25 / whole.RadiusIn), holes);
            }
        }
    }

    /// <summary>The same ball with one finger drilled deeper.</summary>
    public DrawnBall Deepened(Random random)
    {
        var holes = _holes.ToList();
        holes[1] = (holes[1].Digit, holes[1].Hole.WithDepth(holes[1].Hole.DepthIn + Between(random, 0.125, 0.375)));
        return HoleWall.Between(_whole, [.. holes.Select(hole => hole.Hole)])[0].WallIn < 0.25 ? this
            : new DrawnBall(_whole, _undrilled, _mark, holes);
    }

    /// <summary>What an inspector types of it.</summary>
    public Sheet Measured(Random random)
    {
        var drilled = MassPropertiesOf.Compute(_whole, [.. _holes.Select(hole => hole.Hole)]);
        var balance = StaticMoment.ToOunces(drilled.MomentOzIn + _undrilled, ScaleConstant.Known(ScaleIn));
        return new Sheet
        {
            Play = new DateOnly(2027, 3, 14),
            Authority = "us-national",
            Grip = new Grip(Hand.Right, [Digit.Thumb, Digit.Middle, Digit.Ring], true),
            Ball = new BallIdentity(null, null, null, null, null, null) { GravityMark = Place(random, _mark, 1.0 / 16) },
            Weights = new Weights(
                Reading(Eighths(drilled.MassOz + Normal(random, 0.15)), "oz", Quantity.Weight),
                Balance(random, balance.Z), Balance(random, balance.X), Balance(random, balance.Y), null)
            {
                ScaleConstant = Reading(ScaleIn * (1 + Normal(random, 0.03)), "in", Quantity.Length),
            },
            Size = new BallSize([Reading(_whole.DiameterIn + Normal(random, 0.005), "in", Quantity.Length)], null),
            Holes = [.. _holes.Select(hole => Measured(random, hole.Digit, hole.Hole))],
        };
    }

    public static Reading Reading(double value, string unit, Quantity quantity) =>
        ReadingParser.Parse(Math.Round(value, 4).ToString("0.####", CultureInfo.InvariantCulture) + " " + unit, quantity).Reading!;

    private static Reading Balance(Random random, double ounces) =>
        Reading(Eighths(ounces + Normal(random, 1.0 / 16) + Normal(random, 0.04)), "oz", Quantity.Imbalance);

    private static Hole Measured(Random random, Digit digit, DrilledHole hole) => new()
    {
        Kind = HoleKind.Grip,
        Digit = digit,
        Diameter = Reading(hole.DiameterIn + Normal(random, 1.0 / 128), "in", Quantity.Length),
        Depth = Reading(hole.DepthIn + Normal(random, 1.0 / 32), "in", Quantity.Length),
        Position = new SurfacePlace(
            Reading(hole.Placement.ArcIn!.Value + Normal(random, 1.0 / 32), "in", Quantity.SignedLength),
            null,
            Reading(hole.Placement.AzimuthDeg + Normal(random, 1), "deg", Quantity.Angle)),
        Pitch = new HolePitch(
            Reading(hole.PitchSouthIn + Normal(random, 1.0 / 32), "in", Quantity.SignedLength),
            Reading(hole.PitchEastIn + Normal(random, 1.0 / 32), "in", Quantity.SignedLength)),
    };

    private SurfacePlace Place(Random random, Vector direction, double withinIn)
    {
        var seen = Shifted(random, direction, withinIn / _whole.RadiusIn);
        var unit = seen / seen.Length;
        return new SurfacePlace(
            Reading(Math.Acos(unit.Z) * _whole.RadiusIn, "in", Quantity.SignedLength), null,
            Reading(Math.Atan2(unit.Y, unit.X) * 180 / Math.PI, "deg", Quantity.Angle));
    }

    private static Vector Shifted(Random random, Vector direction, double angle)
    {
        var unit = direction / direction.Length;
        return unit + new Vector(Normal(random, angle), Normal(random, angle), 0);
    }

    private static BallDescription? Layered(Random random)
    {
        var (radius, weight) = (Between(random, 8.505, 8.590) / 2, Between(random, 13 * 16, (15 * 16) + 14));
        var (cover, coverDensity) = (Between(random, 0.4, 0.8), Between(random, 1.12, 1.24));
        var (core, coreDensity) = (Between(random, 50, 100), Between(random, 1.6, 2.4));
        var (inside, ball) = (Volume(radius - cover), Volume(radius));
        var filler = ((weight / Density.OzPerIn3InOneGPerCm3) - (coverDensity * (ball - inside)) - (coreDensity * core)) / (inside - core);
        return filler is < 0.6 or > 1.6 ? null : BallDescription.OfLayers(2 * radius, Interior.Layers.Of(
        [
            new Interior.Layer(radius, Density.FromGPerCm3(coverDensity)),
            new Interior.Layer(radius - cover, Density.FromGPerCm3(filler)),
            new Interior.Layer(Math.Cbrt(core * 3 / (4 * Math.PI)), Density.FromGPerCm3(coreDensity)),
        ]));
    }

    private static List<(Digit, DrilledHole)>? Grip(Random random, BallDescription whole)
    {
        var arc = Between(random, 2.2, 2.6);
        List<(Digit, DrilledHole)> holes =
        [
            (Digit.Thumb, DrilledHole.Of(
                HolePlacement.AtArc(Between(random, 2.3, 2.7), 270), Between(random, 15.0 / 16, 19.0 / 16), Between(random, 2, 3),
                    pitchSouthIn: Between(random, -0.25, 0.5))),
            (Digit.Middle, Finger(Between(random, 107, 110), Between(random, 0.25, 0.5))),
            (Digit.Ring, Finger(Between(random, 70, 73), -Between(random, 0.25, 0.5))),
        ];
        return HoleWall.Between(whole, [.. holes.Select(hole => hole.Item2)])[0].WallIn < 0.25 ? null : holes;

        DrilledHole Finger(double azimuth, double east) => DrilledHole.Of(
            HolePlacement.AtArc(arc, azimuth), Between(random, 13.0 / 16, 31.0 / 32), Between(random, 1.25, 2),
                pitchSouthIn: Between(random, -0.25, 0.25), pitchEastIn: east);
    }

    private static double Volume(double radius) => 4 * Math.PI / 3 * radius * radius * radius;

    private static double Eighths(double value) => Math.Round(value * 8) / 8;

    private static double Between(Random random, double low, double high) => low + ((high - low) * random.NextDouble());

    private static double Normal(Random random, double deviation) =>
        deviation * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
