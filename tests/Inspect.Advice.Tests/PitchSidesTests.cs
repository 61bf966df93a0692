using Inspect.Ball;
using Inspect.Sheets;
using Inspect.Sheets.Form;

namespace Inspect.Advice.Tests;

/// <summary>What a driller's words for pitch do to the bottom of a hole: seen from above, where x is the bowler's right. The words
/// are common practice, no source.</summary>
public class PitchSidesTests
{
    private const double Radius = 4.25;

    [Theory]
    [InlineData(Digit.Thumb, 270)]
    [InlineData(Digit.Thumb, 250)]
    [InlineData(Digit.Middle, 106)]
    [InlineData(Digit.Ring, 74)]
    [InlineData(Digit.Little, 42)]
    public void Across_PitchToTheRight_TakesTheBottomToTheRight(Digit digit, double azimuth)
    {
        var sides = PitchSides.Across(digit, azimuth, Hand.Right)!;
        var sign = sides.Positive == "right" ? 1 : -1;

        Assert.Equal(["left", "right"], sides.InOrder.Order());
        Assert.True(Bottom(azimuth, 0, sign * 0.375).X > Bottom(azimuth, 0, 0).X);
        Assert.True(Bottom(azimuth, 0, -sign * 0.375).X < Bottom(azimuth, 0, 0).X);
    }

    [Theory]
    [InlineData(270)]
    [InlineData(106)]
    public void Along_ForwardPitch_TakesTheBottomTowardsTheGripsCentre(double azimuth)
    {
        Assert.Equal(("reverse", "forward"), (PitchSides.Along.Positive, PitchSides.Along.Negative));
        Assert.True(FromTheMiddle(Bottom(azimuth, -0.375, 0)) < FromTheMiddle(Bottom(azimuth, 0, 0)));
        Assert.True(FromTheMiddle(Bottom(azimuth, 0.375, 0)) > FromTheMiddle(Bottom(azimuth, 0, 0)));

        static double FromTheMiddle(Vector bottom) => Math.Sqrt((bottom.X * bottom.X) + (bottom.Y * bottom.Y));
    }

    [Fact]
    public void Across_UnmeasuredPlace_IsThatOfAnOrdinaryGripOfTheHand()
    {
        Assert.Equal(new Sides("right", "left"), PitchSides.Across(Digit.Thumb, null, Hand.Left));
        Assert.Equal(new Sides("left", "right"), PitchSides.Across(Digit.Ring, null, Hand.Left));
        Assert.Null(PitchSides.Across(Digit.Thumb, 183, Hand.Right));
    }

    private static Vector Bottom(double azimuth, double south, double east) =>
        GripFrame.BottomOf(DrilledHole.Of(HolePlacement.AtArc(2.4, azimuth), 1, 2, pitchSouthIn: south, pitchEastIn: east), Radius);
}
