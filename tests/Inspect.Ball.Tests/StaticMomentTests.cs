namespace Inspect.Ball.Tests;

/// <summary>First moments, ounces on a scale, and the halves that the rule's wording speaks of.</summary>
/// <remarks>Source: equilibrium of moments, worked by hand where a figure is given; else the check values.</remarks>
public sealed class StaticMomentTests
{
    public static TheoryData<string> StaticCases => [.. CheckValues.Rows(CheckValues.Static).Select(row => row.Name)];

    /// <summary>A 1 by 2 1/2 in hole in an even 15 lb ball, from the top towards the side. Source: derived for this project, 1.45686 oz
    /// at 2.99264 in.</summary>
    [Theory]
    [InlineData(0, -1.4569, 0, -4.35986, 0)]
    [InlineData(7, -1.4569, -1.1933, -4.32736, -0.53133)]
    [InlineData(15, -1.4569, -1.4564, -4.21130, -1.12842)]
    [InlineData(30, -1.4569, -1.4569, -3.77575, -2.17993)]
    [InlineData(45, -1.4569, -1.4569, -3.08289, -3.08289)]
    [InlineData(90, 0, -1.4569, 0, -4.35986)]
    public void ChangeByDrilling_HoleTiltedTowardsTheSide_SplitsAsTheMomentDoes(
        double angle, double halvesTop, double halvesSide, double momentTop, double momentSide)
    {
        DrilledHole[] holes = [Described.AtAngle(angle, 0, 1, 2.5)];
        var moment = StaticMoment.ChangeByDrilling(Described.Even15, holes);
        var halves = StaticMoment.HalvesChangeByDrilling(Described.Even15, holes);

        Close.Within(new Vector(momentSide, 0, momentTop), moment, 0.6e-5, "moment");
        Close.Within(new Vector(halvesSide, 0, halvesTop), halves, 0.6e-4, "halves");
        Close.Within(1.45686, MassPropertiesOf.Compute(Described.Even15, holes).RemovedOz[0], 0.6e-5);
    }

    [Theory]
    [MemberData(nameof(StaticCases))]
    public void HalvesChangeByDrilling_CheckValues_AreGiven(string name) =>
        Close.Within(
            CheckValues.RowOf(CheckValues.Static, name).Vector(0),
            StaticMoment.HalvesChangeByDrilling(Described.Even15, Described.Holes(name)),
            2e-4,
            "halves");

    [Fact]
    public void ChangeByDrilling_BallWithTopWeight_LeavesTheBallsOwnOut()
    {
        var with = StaticMoment.ChangeByDrilling(Described.Declared(2.66, 0.03, 0, 12.75), Described.Holes("C12"));
        var without = StaticMoment.ChangeByDrilling(Described.Even15, Described.Holes("C12"));

        Close.Within(without, with, 1e-12, "change");
    }

    [Fact]
    public void ToOunces_OtherScales_DivideByTheirConstant()
    {
        Close.Within(-2.364489, StaticMoment.ToOunces(-10.049076, ScaleConstant.Known(4.25)), 1e-6);
        Close.Within(-3.152651, StaticMoment.ToOunces(-10.049076, ScaleConstant.Known(3.1875)), 1e-6);
        Close.Within(12.75, StaticMoment.FromOunces(3, ScaleConstant.Known(4.25)), 1e-12);
        Close.Within(new Vector(4, -8, 12), StaticMoment.FromOunces(new Vector(1, -2, 3), ScaleConstant.Known(4)), 0);
        Close.Within(new Vector(1, -2, 3), StaticMoment.ToOunces(new Vector(4, -8, 12), ScaleConstant.Known(4)), 0);
    }

    /// <summary>A scale of 4 in shows 2 · (4.25 + 0.15) / 4 = 2.2 oz more with 2 oz taped 0.15 in above the surface.</summary>
    [Fact]
    public void FromTapedMass_ReadingRises_GivesTheConstant()
    {
        var scale = ScaleConstant.FromTapedMass(2, 4.25, 0.15, withoutOz: -0.4, withOz: 1.8);

        Close.Within(4, scale.Inches, 1e-12);
        Assert.True(scale.IsCalibrated);
        Assert.False(ScaleConstant.Uncalibrated(4.25).IsCalibrated);
        Assert.Equal(4.25, ScaleConstant.Uncalibrated(4.25).Inches);
    }

    [Fact]
    public void FromTapedMass_ReadingDoesNotRise_IsRefused()
    {
        var refused = Assert.Throws<DescriptionException>(() => ScaleConstant.FromTapedMass(2, 4.25, 0.15, 1.8, 1.8));

        Assert.Equal("with", Assert.Single(refused.Faults).Member);
    }

    /// <summary>W(1 ± d/B) on one beam, d = 0.05 in, W = 240 oz, B = 8.5 in: the difference of readings is S over half the seat's
    /// arm.</summary>
    [Fact]
    public void OfSeatReadBothWays_WholeDifference_IsTheMomentOverHalfTheArm()
    {
        const double weight = 240, offset = 0.05, arm = 8.5;
        var difference = (weight * (1 + (offset / arm))) - (weight * (1 - (offset / arm)));

        Close.Within(weight * offset, StaticMoment.FromOunces(difference, ScaleConstant.OfSeatReadBothWays(arm)), 1e-10);
        Close.Within(weight * offset, StaticMoment.FromOunces(weight * offset / 3.5, ScaleConstant.OfPoise(3.5)), 1e-10);
    }

    [Fact]
    public void TwoPositionReading_ScaleWithAnError_GivesValueAndError()
    {
        var reading = TwoPositionReading.Of(firstOz: 2.25 + 0.125, turnedOz: -2.25 + 0.125);

        Assert.Equal(2.25, reading.ValueOz);
        Assert.Equal(0.125, reading.ZeroErrorOz);
        Assert.Throws<DescriptionException>(() => TwoPositionReading.Of(double.NaN, 0));
    }
}
