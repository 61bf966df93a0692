namespace Inspect.Ball;

/// <summary>Where, along a chord of one bore, its lines begin to meet another bore, as far as there is a short formula for it.</summary>
internal static class MeetingBreaks
{
    /// <param name="bore">The bore along which the lines run.</param>
    /// <param name="other">The bore that they meet.</param>
    /// <param name="middle">The chord's middle, at the height of the bore's foot.</param>
    /// <param name="direction">The chord's unit direction.</param>
    /// <param name="breaks">Takes the places.</param>
    public static void Add(Bore bore, Bore other, Vector middle, Vector direction, ref Breaks breaks)
    {
        var start = middle - other.Foot;
        var foot = Flattened(start, other.Axis);
        var axis = Flattened(bore.Axis, other.Axis);
        var along = Flattened(direction, other.Axis);
        var square = axis.Dot(axis);
        var limit = foot.Dot(foot) - (other.Radius * other.Radius);

        // The line touches the other's wall.
        breaks.AddRoots(
            (along.Dot(axis) * along.Dot(axis)) - (square * along.Dot(along)),
            (foot.Dot(axis) * along.Dot(axis)) - (square * foot.Dot(along)),
            (foot.Dot(axis) * foot.Dot(axis)) - (square * limit));

        // A flat bottom of this bore meets the other's wall.
        AddWall(foot + (bore.TipHeight * axis), along, other, ref breaks);

        // The line meets the rim of the other's flat bottom, or the two bottoms meet.
        var slope = bore.Axis.Dot(other.Axis);
        if (other.Bottom == HoleBottom.Flat && Math.Abs(slope) > 1e-9)
        {
            var height = (other.TipHeight - start.Dot(other.Axis)) / slope;
            var rise = -direction.Dot(other.Axis) / slope;
            AddWall(foot + (height * axis), along + (rise * axis), other, ref breaks);
            breaks.AddRoots(0, rise / 2, height - bore.TipHeight);
        }
    }

    private static void AddWall(Vector start, Vector run, Bore other, ref Breaks breaks) =>
        breaks.AddRoots(run.Dot(run), start.Dot(run), start.Dot(start) - (other.Radius * other.Radius));

    private static Vector Flattened(Vector vector, Vector axis) => vector - (vector.Dot(axis) * axis);
}
