namespace Inspect.Ball;

/// <summary>The material left between two holes of a ball, by their places in the list.</summary>
/// <param name="First">The place of one hole.</param>
/// <param name="Second">The place of the other.</param>
/// <param name="WallIn">The least distance between the axes less both radii; negative when the holes run into each other.</param>
public sealed record HoleWall(int First, int Second, double WallIn)
{
    /// <summary>The walls between all holes that have a depth, thinnest first.</summary>
    /// <remarks>The distance is taken between the axes from the surface to the bottom. Near the edge of a flat bottom the true wall may be
    /// thicker, but never thinner.</remarks>
    /// <exception cref="DescriptionException">A hole is not inside the ball.</exception>
    public static IReadOnlyList<HoleWall> Between(BallDescription ball, IReadOnlyList<DrilledHole> holes)
    {
        MassPropertiesOf.ThrowUnlessDrillable(ball, holes);
        var bores = MassPropertiesOf.Bores(ball, holes);
        var walls = new List<HoleWall>();
        for (var i = 0; i < bores.Length; i++)
        {
            for (var j = i + 1; j < bores.Length; j++)
            {
                if (!bores[i].IsEmpty && !bores[j].IsEmpty)
                {
                    var gap = Segment.Distance(bores[i].Entry, bores[i].Tip, bores[j].Entry, bores[j].Tip);
                    walls.Add(new HoleWall(i, j, gap - bores[i].Radius - bores[j].Radius));
                }
            }
        }

        return [.. walls.OrderBy(wall => wall.WallIn)];
    }
}
