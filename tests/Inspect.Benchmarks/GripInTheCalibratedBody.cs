using Inspect.Ball;

namespace Inspect.Benchmarks;

/// <summary>A three-hole grip in a ball fitted to declared figures, and the plain closed forms of three radial holes as the
/// reference.</summary>
internal sealed class GripInTheCalibratedBody
{
    private const double Radius = 4.25;

    private readonly BallDescription _ball = BallDescription.Of(2 * Radius, 240, Interior.Calibrated.Of(2.480, 0.050, 0.015));

    private readonly DrilledHole[] _holes =
    [
        DrilledHole.Of(HolePlacement.AtArc(2.35, 106), 31.0 / 32, 2, pitchEastIn: 3.0 / 8),
        DrilledHole.Of(HolePlacement.AtArc(2.35, 74), 15.0 / 16, 2, pitchEastIn: -3.0 / 8),
        DrilledHole.Of(HolePlacement.AtArc(2.5, 270), 17.0 / 16, 2.75, pitchSouthIn: 3.0 / 8),
    ];

    public double Compute() => MassPropertiesOf.Compute(_ball, _holes).TotalDifferentialIn;

    public double DrawDepthChart() => DepthChartOf.Compute(_ball, _holes, 2).Points[^1].RemovedOz.Best;

    /// <summary>Mass, first and second moment of a flat radial hole in an even ball, three times over.</summary>
    public double ByClosedForms()
    {
        var sum = 0.0;
        foreach (var hole in _holes)
        {
            var a = hole.DiameterIn / 2;
            var b = Radius - hole.DepthIn;
            var c = Math.Sqrt((Radius * Radius) - (a * a));
            var (cubes, fifths) = (Math.Pow(Radius, 3) - Math.Pow(c, 3), Math.Pow(Radius, 5) - Math.Pow(c, 5));
            var mass = (2 * Math.PI / 3 * cubes) - (Math.PI * a * a * b);
            var moment = Math.PI * a * a * ((((Radius * Radius) - (b * b)) / 2) - (a * a / 4));
            var along = (2 * Math.PI / 15 * fifths) - (Math.PI * a * a * b * b * b / 3);
            var across = ((Math.PI * ((2.0 / 3 * Radius * Radius * cubes) - (2.0 / 5 * fifths))) - (Math.PI * a * a * a * a * b / 2)) / 2;
            sum += mass + moment + along + across;
        }

        return sum;
    }
}
