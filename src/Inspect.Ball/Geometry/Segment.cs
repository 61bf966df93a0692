namespace Inspect.Ball;

/// <summary>Distances between segments of straight lines.</summary>
internal static class Segment
{
    /// <summary>The least distance between the segment from a to b and the segment from c to d.</summary>
    public static double Distance(Vector a, Vector b, Vector c, Vector d)
    {
        var first = b - a;
        var second = d - c;
        var between = a - c;
        var aa = first.Dot(first);
        var bb = second.Dot(second);
        var ab = first.Dot(second);
        var determinant = (aa * bb) - (ab * ab);
        var s = determinant > 1e-12 * aa * bb
            ? Math.Clamp(((ab * second.Dot(between)) - (bb * first.Dot(between))) / determinant, 0, 1)
            : 0;
        var t = bb == 0 ? 0 : ((s * ab) + second.Dot(between)) / bb;
        if (t is < 0 or > 1)
        {
            t = Math.Clamp(t, 0, 1);
            s = aa == 0 ? 0 : Math.Clamp(((t * ab) - first.Dot(between)) / aa, 0, 1);
        }

        return (between + (s * first) - (t * second)).Length;
    }
}
