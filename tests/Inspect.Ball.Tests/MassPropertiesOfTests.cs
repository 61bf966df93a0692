namespace Inspect.Ball.Tests;

/// <summary>The check values of a drilled ball, even, layered and fitted to declared figures.</summary>
/// <remarks>
/// Tolerances: 1e-6 of a mass, 1e-6 oz·in, 1e-6 in of an RG, 2e-6 in of a differential. A printed figure is good to one unit of its last
/// digit, so a small mass is compared to half a unit of that digit where 1e-6 of it would be less.
/// </remarks>
public sealed class MassPropertiesOfTests
{
    private const double LastDigitOfAMass = 0.5e-7;

    public static TheoryData<string> UniformCases => [.. CheckValues.Rows(CheckValues.Uniform).Select(row => row.Name)];

    public static TheoryData<string> StaticCases => [.. CheckValues.Rows(CheckValues.Static).Select(row => row.Name)];

    public static TheoryData<string> LayeredCases => [.. CheckValues.Rows(CheckValues.Layered).Select(row => row.Name)];

    [Theory]
    [MemberData(nameof(UniformCases))]
    public void Compute_EvenBall_GivesTheCheckValues(string name)
    {
        var expected = CheckValues.RowOf(CheckValues.Uniform, name);
        var light = MassPropertiesOf.Compute(Described.Even15, Described.Holes(name));
        var heavy = MassPropertiesOf.Compute(Described.Even16, Described.Holes(name));

        Mass(expected.Number(0), light.RemovedOz.Sum());
        Mass(expected.Number(1), heavy.RemovedOz.Sum());
        Close.Relatively(240 - expected.Number(0), light.MassOz);
        Close.Within(expected.Vector(2), light.MomentOzIn, Close.MomentOzIn, "moment");
        Close.Within(expected.Vector(3), light.CgIn, 1e-8, "CG");
        Close.Within(expected.Vector(4), light.RgIn, Close.RgIn, "RG");
        Close.Principal(expected.Cells[5], light);
        Close.Within(expected.Number(6), light.TotalDifferentialIn, Close.DifferentialIn, "total");
        Close.Within(expected.Number(7), light.IntermediateDifferentialIn, Close.DifferentialIn, "intermediate");
        Close.Within(light.TotalDifferentialIn, heavy.TotalDifferentialIn, 1e-12, "total of any weight");
    }

    [Theory]
    [MemberData(nameof(StaticCases))]
    public void Compute_EvenBall_GivesTheStaticCheckValues(string name)
    {
        var expected = CheckValues.RowOf(CheckValues.Static, name);
        var ball = MassPropertiesOf.Compute(Described.Even15, Described.Holes(name));

        Close.Within(expected.Vector(1), ball.MomentOzIn / 4.25, Close.MomentOzIn, "over 4.25");
        Close.Within(expected.Vector(2), ball.MomentOzIn / 3.1875, Close.MomentOzIn, "over 3.1875");
        Close.Within(expected.Vector(3), ball.RgAboutCentreIn, Close.RgIn, "RG about the centre");
    }

    [Theory]
    [MemberData(nameof(LayeredCases))]
    public void Compute_LayeredBall_GivesTheCheckValues(string name)
    {
        var expected = CheckValues.RowOf(CheckValues.Layered, name);
        var ball = MassPropertiesOf.Compute(Described.L3, Described.Holes(name));

        Mass(expected.Number(0), ball.RemovedOz.Sum());
        Close.Within(expected.Vector(1), ball.MomentOzIn, Close.MomentOzIn, "moment");
        Close.Principal(expected.Cells[2], ball);
        Close.Within(expected.Number(3), ball.TotalDifferentialIn, Close.DifferentialIn, "total");
        Close.Within(expected.Number(4), ball.IntermediateDifferentialIn, Close.DifferentialIn, "intermediate");
    }

    /// <summary>A 1 by 3 in hole in bodies fitted to declared figures. Source as for the other check values; good to 2 in the last
    /// digit.</summary>
    [Theory]
    [InlineData("SYM15", 0, 0, 2.5704743, 0, 0, 6.369697, 2.4931182, 2.5289303, 2.5289303, 0.0358121, 0)]
    [InlineData("SYM15", 45, 0, 2.1999356, 3.750684, 0, 3.770437, 2.4844416, 2.5295097, 2.5361618, 0.0517202, 0.0066521)]
    [InlineData("SYM15", 90, 0, 1.9618969, 4.733519, 0, 0, 2.4790459, 2.5294726, 2.5402026, 0.0611567, 0.0107301)]
    [InlineData("ASY15", 0, 0, 2.5203879, 0, 0, 6.195734, 2.4928605, 2.5139844, 2.5291490, 0.0362884, 0.0151646)]
    [InlineData("ASY15", 90, 90, 2.1020877, 0, 5.053681, 0, 2.4791372, 2.5258691, 2.5295914, 0.0504542, 0.0037222)]
    [InlineData("MED15", 90, 0, 1.8567358, 4.704683, 0, 0, 2.5487309, 2.5890599, 2.5998903, 0.0511594, 0.0108304)]
    public void Compute_CalibratedBall_GivesTheCheckValues(
        string body, double angle, double azimuth, double removed, double x, double y, double z,
        double low, double middle, double high, double total, double intermediate)
    {
        var described = body switch { "SYM15" => Described.Sym15, "ASY15" => Described.Asy15, _ => Described.Med15 };
        var ball = MassPropertiesOf.Compute(described, [Described.AtAngle(angle, azimuth, 1, 3)]);

        Assert.Equal(InteriorUsed.Calibrated, ball.Interior);
        Assert.Null(ball.InteriorReason);
        Mass(removed, ball.RemovedOz.Sum());
        Close.Within(new Vector(x, y, z), -ball.MomentOzIn, Close.MomentOzIn, "moment removed");
        Close.Principal([low, middle, high], ball);
        Close.Within(total, ball.TotalDifferentialIn, Close.DifferentialIn, "total");
        Close.Within(intermediate, ball.IntermediateDifferentialIn, Close.DifferentialIn, "intermediate");
    }

    private static void Mass(double expected, double actual) =>
        Close.Within(expected, actual, Math.Max(Close.Relative * expected, LastDigitOfAMass), "removed");
}
