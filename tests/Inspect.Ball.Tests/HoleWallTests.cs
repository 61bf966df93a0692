namespace Inspect.Ball.Tests;

/// <summary>Walls between holes. Source of the figure: derived for this project from the axes of case C12.</summary>
public sealed class HoleWallTests
{
    [Fact]
    public void Between_ThreeHoleGrip_NamesTheBridgeFirst()
    {
        var walls = HoleWall.Between(Described.Even15, Described.Holes("C12"));

        Assert.Equal(3, walls.Count);
        Assert.Equal((0, 1), (walls[0].First, walls[0].Second));
        Close.Within(0.9930 - 0.953125, walls[0].WallIn, 0.6e-4);
        Assert.True(walls[1].WallIn > 1, "The thumb hole is far away.");
    }

    [Fact]
    public void Between_HolesThatMeet_IsNegative()
    {
        DrilledHole[] holes = [Described.AtAngle(20, 0, 1, 2), Described.AtAngle(30, 0, 1, 2), Described.AtAngle(30, 0, 1, 0)];
        var wall = Assert.Single(HoleWall.Between(Described.Even15, holes));

        // Radial axes 10 degrees apart are nearest at the bottoms.
        Close.Within((2 * 2.25 * Math.Sin(5 * Math.PI / 180)) - 1, wall.WallIn, 0.01);
    }
}
