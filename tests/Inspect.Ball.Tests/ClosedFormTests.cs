namespace Inspect.Ball.Tests;

/// <summary>Radial flat holes against closed forms coded here on their own.</summary>
/// <remarks>
/// Source: integrals of a cylinder under a spherical cap, done by hand; z runs along the hole, b = R − h, c = √(R² − a²). A layer
/// counts in full where its surface lies above the bottom all over the bore, and not at all where it lies wholly below.
/// </remarks>
public sealed class ClosedFormTests
{
    public static TheoryData<double, double> DiametersAndDepths
    {
        get
        {
            var data = new TheoryData<double, double>();
            foreach (var diameter in new[] { 0.25, 15.0 / 16, 1, 25.0 / 16 })
            {
                foreach (var depth in new[] { 0.5, 1, 2, 3, 4.25, 4.5 })
                {
                    data.Add(diameter, depth);
                }
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(DiametersAndDepths))]
    public void Compute_RadialFlatHoleInAnEvenBall_IsTheClosedForm(double diameter, double depth)
    {
        var density = Described.Even15.MeanDensity.OzPerIn3;
        AgreesWithClosedForm(Described.Even15, [(Described.Radius, density)], diameter, depth);
    }

    /// <summary>Depths are chosen so that the bottom cuts no layer inside the bore.</summary>
    [Theory]
    [InlineData(1, 0.4)]
    [InlineData(1, 1.2)]
    [InlineData(31.0 / 32, 2.5)]
    [InlineData(25.0 / 16, 4)]
    public void Compute_RadialFlatHoleInALayeredBall_IsTheSumOverItsLayers(double diameter, double depth)
    {
        const double unit = Density.OzPerIn3InOneGPerCm3;
        AgreesWithClosedForm(
            Described.L3, [(4.25, 1.18 * unit), (3.65, (0.80 - 1.18) * unit), (2.60, (2.30 - 0.80) * unit)], diameter, depth);
    }

    private static void AgreesWithClosedForm(BallDescription ball, (double Radius, double Density)[] layers, double diameter, double depth)
    {
        var a = diameter / 2;
        var b = Described.Radius - depth;
        var (mass, moment, along, across) = (0.0, 0.0, 0.0, 0.0);
        foreach (var (radius, density) in layers.Where(layer => layer.Radius > b))
        {
            var c = Math.Sqrt((radius * radius) - (a * a));
            Assert.True(Math.Abs(b) <= c, "The bottom cuts this layer inside the bore; no closed form holds.");
            mass += density * ((2 * Math.PI / 3 * (Cube(radius) - Cube(c))) - (Math.PI * a * a * b));
            moment += density * Math.PI * a * a * ((((radius * radius) - (b * b)) / 2) - (a * a / 4));
            along += density * ((2 * Math.PI / 15 * (Fifth(radius) - Fifth(c))) - (Math.PI * a * a * Cube(b) / 3));
            across +=
                density / 2 * ((Math.PI * ((2.0 / 3 * radius * radius * (Cube(radius) - Cube(c))) - (2.0 / 5 * (Fifth(radius) - Fifth(c)))))
                - (Math.PI * a * a * a * a * b / 2));
        }

        // At the pin: along is z, so inertia about z is what lies across it twice.
        var drilled = MassPropertiesOf.Compute(ball, [Described.AtAngle(0, 0, diameter, depth)]);
        var whole = MassPropertiesOf.Compute(ball, []);
        Close.Relatively(mass, drilled.RemovedOz[0], 1e-10, "mass");
        Close.Within(new Vector(0, 0, -moment), drilled.MomentOzIn, 1e-10, "moment");
        Close.Within(
            2 * across, whole.InertiaAtCentreOzIn2.ZZ - drilled.InertiaAtCentreOzIn2.ZZ, 1e-9, "inertia about the hole's axis");
        Close.Within(
            across + along, whole.InertiaAtCentreOzIn2.XX - drilled.InertiaAtCentreOzIn2.XX, 1e-9, "inertia across the hole's axis");
    }

    private static double Cube(double x) => x * x * x;

    private static double Fifth(double x) => x * x * x * x * x;
}
