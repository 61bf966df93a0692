namespace Inspect.Ball;

/// <summary>The segment of a straight line that is in a bore. A bore is convex, so there is at most one.</summary>
internal static class BoreOnLine
{
    /// <summary>The heights between which the line point + height · direction is inside the bore.</summary>
    /// <returns>False when the line misses the bore.</returns>
    public static bool Interval(Bore bore, Vector point, Vector direction, out double low, out double high)
    {
        var offset = point - bore.Foot;
        var line = new LocalLine(
            offset.Dot(bore.Across), offset.Dot(bore.Along), offset.Dot(bore.Axis) - bore.TipHeight,
            direction.Dot(bore.Across), direction.Dot(bore.Along), direction.Dot(bore.Axis));
        low = double.NegativeInfinity;
        high = double.PositiveInfinity;
        if (bore.IsEmpty || !InWall(line, bore.Radius, ref low, ref high))
        {
            return false;
        }

        return bore.Bottom switch
        {
            HoleBottom.Flat => AtMost(line.Z, line.Dz, 0, ref low, ref high),
            HoleBottom.Cone118 => InCone(line, bore.ConeSlope, ref low, ref high),
            _ => InRoundEnd(line, bore.Radius, ref low, ref high),
        };
    }

    private static bool InWall(in LocalLine line, double radius, ref double low, ref double high)
    {
        var a = line.SquareAcross;
        var c = (line.X * line.X) + (line.Y * line.Y) - (radius * radius);
        if (a < 1e-20)
        {
            return c <= 0;
        }

        return Roots.Quadratic(a, (line.X * line.Dx) + (line.Y * line.Dy), c, out low, out high) && low < high;
    }

    /// <summary>Narrows the interval to where z + t·dz is at most the limit.</summary>
    private static bool AtMost(double z, double dz, double limit, ref double low, ref double high)
    {
        if (Math.Abs(dz) < 1e-14)
        {
            return z <= limit;
        }

        var at = (limit - z) / dz;
        (low, high) = dz > 0 ? (low, Math.Min(high, at)) : (Math.Max(low, at), high);
        return low < high;
    }

    /// <summary>Narrows the interval to the inside of the cone whose tip is the local origin and which opens towards −z.</summary>
    private static bool InCone(in LocalLine line, double slope, ref double low, ref double high)
    {
        if (!AtMost(line.Z, line.Dz, 0, ref low, ref high))
        {
            return false;
        }

        var k = slope * slope;
        var a = (k * line.SquareAcross) - (line.Dz * line.Dz);
        var b = (k * ((line.X * line.Dx) + (line.Y * line.Dy))) - (line.Z * line.Dz);
        var c = (k * ((line.X * line.X) + (line.Y * line.Y))) - (line.Z * line.Z);
        if (!Roots.Quadratic(a, b, c, out var first, out var second))
        {
            return a < 0 || (a == 0 && c <= 0);
        }

        if (a > 0)
        {
            (low, high) = (Math.Max(low, first), Math.Min(high, second));
        }
        else if (line.Dz > 0)
        {
            high = Math.Min(high, first);
        }
        else
        {
            low = Math.Max(low, second);
        }

        return low < high;
    }

    /// <summary>Narrows the interval to the round end and the cylinder above its centre.</summary>
    private static bool InRoundEnd(in LocalLine line, double radius, ref double low, ref double high)
    {
        var (wallLow, wallHigh) = (low, high);
        var inWall = AtMost(line.Z + radius, line.Dz, 0, ref wallLow, ref wallHigh);
        var z = line.Z + radius;
        var inBall = Roots.Quadratic(
            line.SquareAcross + (line.Dz * line.Dz),
            (line.X * line.Dx) + (line.Y * line.Dy) + (z * line.Dz),
            (line.X * line.X) + (line.Y * line.Y) + (z * z) - (radius * radius),
            out var ballLow,
            out var ballHigh);
        (low, high) = (inWall, inBall) switch
        {
            (true, true) => (Math.Min(wallLow, ballLow), Math.Max(wallHigh, ballHigh)),
            (true, false) => (wallLow, wallHigh),
            (false, true) => (ballLow, ballHigh),
            _ => (0, 0),
        };
        return low < high;
    }

    /// <summary>A line in the bore's own frame; heights are measured from the tip.</summary>
    private readonly record struct LocalLine(double X, double Y, double Z, double Dx, double Dy, double Dz)
    {
        public double SquareAcross => (Dx * Dx) + (Dy * Dy);
    }
}
