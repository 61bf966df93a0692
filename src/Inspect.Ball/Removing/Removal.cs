namespace Inspect.Ball;

/// <summary>Adds up what a bore removes from a ball, line by line along the bore, over its cross-section.</summary>
/// <remarks>
/// Along each line the sum is exact; only the disk is a quadrature. Across it the distance from the axis is a·sin(πt/2), which keeps
/// curved bottoms smooth, with Gauss-Legendre nodes in t; the angle is a trapezoid rule. A ray that meets the surface of a density
/// step, or the wall of an earlier bore, is cut there, and each piece has nodes that crowd at both its ends.
/// </remarks>
internal static class Removal
{
    private const int MostBreaks = 64;
    private const int SmoothnessRays = 24;

    public static void Integrate<TSum>(
        ReadOnlySpan<DensityStep> steps, Bore bore, ReadOnlySpan<Bore> earlier, Fineness fineness, ref TSum sum)
        where TSum : struct, ILineSum
    {
        if (bore.IsEmpty)
        {
            return;
        }

        var met = Meeting(bore, earlier);
        var angles = met.Length > 0 ? fineness.MetAngles : IsSmooth(steps, bore) ? fineness.SmoothAngles : fineness.BrokenAngles;
        var bodies = new BodyOnRay[steps.Length];
        Span<double> breakRoom = stackalloc double[MostBreaks];
        for (var i = 0; i < angles; i++)
        {
            var ray = Ray(bore, (i + 0.5) * 2 * Math.PI / angles);
            var breaks = new Breaks(breakRoom, bore.Radius);
            See(steps, bore, met, ray, bodies, ref breaks);
            new RayIntegral(bore, met, ray, bodies, fineness.Rule, 2 * Math.PI / angles).AddAll(breaks, ref sum);
        }
    }

    private static Vector Ray(Bore bore, double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        return (cos * bore.Across) + (sin * bore.Along);
    }

    private static Bore[] Meeting(Bore bore, ReadOnlySpan<Bore> earlier)
    {
        var met = new List<Bore>();
        foreach (var other in earlier)
        {
            if (bore.MayMeet(other))
            {
                met.Add(other);
            }
        }

        return [.. met];
    }

    private static bool IsSmooth(ReadOnlySpan<DensityStep> steps, Bore bore)
    {
        Span<double> room = stackalloc double[MostBreaks];
        var bodies = new BodyOnRay[steps.Length];
        for (var i = 0; i < SmoothnessRays; i++)
        {
            var breaks = new Breaks(room, bore.Radius);
            See(steps, bore, [], Ray(bore, i * 2 * Math.PI / SmoothnessRays), bodies, ref breaks);
            if (!breaks.IsSmooth)
            {
                return false;
            }
        }

        return true;
    }

    private static void See(
        ReadOnlySpan<DensityStep> steps, Bore bore, ReadOnlySpan<Bore> met, Vector ray, Span<BodyOnRay> bodies, ref Breaks breaks)
    {
        for (var i = 0; i < steps.Length; i++)
        {
            bodies[i] = new BodyOnRay(steps[i], bore, ray);
            bodies[i].AddBreaks(bore, ref breaks);
        }

        foreach (var other in met)
        {
            AddWallBreaks(bore, other, ray, ref breaks);
        }
    }

    /// <summary>Cuts the ray where its lines begin to miss another bore's wall, and where its bottom meets that wall.</summary>
    private static void AddWallBreaks(Bore bore, Bore other, Vector ray, ref Breaks breaks)
    {
        var foot = Flattened(bore.Foot - other.Foot, other.Axis);
        var axis = Flattened(bore.Axis, other.Axis);
        var along = Flattened(ray, other.Axis);
        var square = axis.Dot(axis);
        var limit = foot.Dot(foot) - (other.Radius * other.Radius);
        breaks.AddRoots(
            (along.Dot(axis) * along.Dot(axis)) - (square * along.Dot(along)),
            (foot.Dot(axis) * along.Dot(axis)) - (square * foot.Dot(along)),
            (foot.Dot(axis) * foot.Dot(axis)) - (square * limit));

        var (tip, slope) = (bore.TipHeight, bore.ConeSlope);
        var start = foot + (tip * axis);
        var run = along - (slope * axis);
        breaks.AddRoots(run.Dot(run), start.Dot(run), start.Dot(start) - (other.Radius * other.Radius));
    }

    private static Vector Flattened(Vector vector, Vector axis) => vector - (vector.Dot(axis) * axis);
}
