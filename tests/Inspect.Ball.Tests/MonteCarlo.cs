namespace Inspect.Ball.Tests;

/// <summary>Removed mass and moments by throwing points into the ball and asking only whether each lies in a hole.</summary>
/// <remarks>
/// It shares no formula with the product: the holes' geometry and the bodies' density are written here again, from the conventions of a
/// described ball, and nothing is integrated along a line. Seeded, so it gives the same figures each time.
/// </remarks>
internal sealed class MonteCarlo(int seed)
{
    private readonly Random _random = new(seed);

    public sealed record Removed(double MassOz, double MassError, Vector Moment, double MomentError);

    /// <param name="density">Density in oz/in³ at a point inside the ball.</param>
    /// <param name="holes">The holes; a point in several counts once.</param>
    /// <param name="points">How many points are thrown into each box around a hole.</param>
    public Removed Sample(Func<Vector, double> density, IReadOnlyList<DrilledHole> holes, int points)
    {
        var places = holes.Select(hole => new Place(hole)).ToArray();
        var (mass, variance, moment) = (0.0, 0.0, Vector.Zero);
        for (var i = 0; i < places.Length; i++)
        {
            // A box around the bore; a point counts for the first hole that holds it, so the union is covered once.
            var place = places[i];
            var volume = 4 * place.Radius * place.Radius * place.BoxLength;
            var (sum, squares, first) = (0.0, 0.0, Vector.Zero);
            for (var n = 0; n < points; n++)
            {
                var point = place.PointInBox(_random);
                if (point.Length > Described.Radius || !place.Holds(point) || AnyHolds(places.AsSpan(0, i), point))
                {
                    continue;
                }

                var here = density(point);
                sum += here;
                squares += here * here;
                first += here * point;
            }

            mass += volume * sum / points;
            moment += volume / points * first;
            variance += volume * volume * ((squares / points) - Math.Pow(sum / points, 2)) / points;
        }

        var error = Math.Sqrt(variance);
        return new Removed(mass, error, moment, error * Described.Radius);
    }

    private static bool AnyHolds(ReadOnlySpan<Place> places, Vector point)
    {
        foreach (var place in places)
        {
            if (place.Holds(point))
            {
                return true;
            }
        }

        return false;
    }

    private sealed class Place
    {
        private readonly DrilledHole _hole;
        private readonly Vector _entry;
        private readonly Vector _in;
        private readonly Vector _one;
        private readonly Vector _two;

        public Place(DrilledHole hole)
        {
            _hole = hole;
            var polar = hole.Placement.AngleRad(Described.Radius);
            var azimuth = polar == 0 ? 0 : hole.Placement.AzimuthDeg * Math.PI / 180;
            var outward = new Vector(Math.Sin(polar) * Math.Cos(azimuth), Math.Sin(polar) * Math.Sin(azimuth), Math.Cos(polar));

            // Aim at a point beside the centre, so that the axis passes the centre at the pitch.
            var south = new Vector(Math.Cos(polar) * Math.Cos(azimuth), Math.Cos(polar) * Math.Sin(azimuth), -Math.Sin(polar));
            var east = new Vector(-Math.Sin(azimuth), Math.Cos(azimuth), 0);
            var lean = (hole.PitchSouthIn * south) + (hole.PitchEastIn * east);
            var angle = Math.Asin(lean.Length / Described.Radius);
            _entry = Described.Radius * outward;
            _in = lean.Length == 0 ? -outward : (Math.Sin(angle) * (lean / lean.Length)) - (Math.Cos(angle) * outward);
            var seed = Math.Abs(_in.Z) < 0.7 ? Vector.UnitZ : Vector.UnitX;
            _one = _in.Cross(seed) / _in.Cross(seed).Length;
            _two = _in.Cross(_one);
        }

        public double Radius => _hole.DiameterIn / 2;

        public double BoxLength => _hole.AxisDepthIn(Described.Radius) + 1;

        public Vector PointInBox(Random random) =>
            _entry
            + (((random.NextDouble() * BoxLength) - 1) * _in)
            + (((2 * random.NextDouble()) - 1) * Radius * _one)
            + (((2 * random.NextDouble()) - 1) * Radius * _two);

        public bool Holds(Vector point)
        {
            var depth = (point - _entry).Dot(_in);
            var aside = (point - _entry - (depth * _in)).Length;
            var left = _hole.AxisDepthIn(Described.Radius) - depth;
            return aside <= Radius && _hole.Bottom switch
            {
                HoleBottom.Flat => left >= 0,
                HoleBottom.Cone118 => left >= 0 && aside <= left * Math.Tan(59 * Math.PI / 180),
                _ => left >= Radius || (left >= 0 && Math.Pow(Radius - left, 2) + (aside * aside) <= Radius * Radius),
            };
        }
    }
}
