namespace Inspect.Ball;

/// <summary>Where, along one ray of a bore, the planes that halve the ball cut its bottom or the ball's surface.</summary>
internal static class PlaneBreaks
{
    public static void Add(Bore bore, Vector ray, ref Breaks breaks)
    {
        Add(bore, ray, Vector.UnitX, ref breaks);
        Add(bore, ray, Vector.UnitY, ref breaks);
        Add(bore, ray, Vector.UnitZ, ref breaks);
    }

    private static void Add(Bore bore, Vector ray, Vector normal, ref Breaks breaks)
    {
        var (foot, axis, along) = (bore.Foot.Dot(normal), bore.Axis.Dot(normal), ray.Dot(normal));
        if (Math.Abs(axis) < 1e-9)
        {
            // The plane holds the lines: they lie on one side of it, and change sides here.
            breaks.AddRoots(0, along / 2, foot);
            return;
        }

        // The bottom, where it is a straight line over r.
        breaks.AddRoots(0, (along - (bore.ConeSlope * axis)) / 2, foot + (bore.TipHeight * axis));

        // The surface: the line meets the plane at a height that is linear in r.
        var start = bore.Foot - (foot / axis * bore.Axis);
        var run = ray - (along / axis * bore.Axis);
        breaks.AddRoots(run.Dot(run), start.Dot(run), start.Dot(start) - (bore.BallRadius * bore.BallRadius));
    }
}
