namespace Inspect.Metrology.Tests;

public class CombinedUncertaintyTests
{
    /// <summary>GUM (JCGM 100:2008), H.1: six parts in nm with their degrees of freedom; printed u 32,
    /// effective 16, t 2.12 at 95 %.</summary>
    /// <remarks>The last part is printed as 16.6: 50 mm x 11.5e-6 /K x 0.029 K is 16.675 nm, from which
    /// the digits here were worked out.</remarks>
    [Fact]
    public void Of_EndGaugeOfTheGum_HasItsUncertaintyAndFreedom()
    {
        var combined = CombinedUncertainty.Of(
            new("", 25, 18), new("", 5.8, 24), new("", 3.9, 5), new("", 6.7, 8), new("", 2.9, 50), new("", 16.675, 2));

        Assert.Equal(31.705, combined.Standard, 5e-4);
        Assert.Equal(16.645, combined.Freedom, 5e-4);
        Assert.Equal(16, combined.WholeFreedom);
        Assert.Equal(2.12, combined.Coverage, 5e-3);
    }

    /// <summary>A tenth of an ounce on the display, 0.03 oz of repeatability, 0.03 oz of calibration:
    /// arithmetic after GUM 5.1.2 and F.2.2.1.</summary>
    [Fact]
    public void Of_AnImbalanceOnADisplayOfTenths_IsAboutATwentiethOfAnOunce()
    {
        var combined = CombinedUncertainty.Of(Contribution.OfResolution(0.1), new("repeatability", 0.03), new("calibration", 0.03));

        Assert.Equal(0.051316, combined.Standard, 5e-7);
        Assert.Null(combined.WholeFreedom);
        Assert.Equal(1.959964, combined.Coverage, 5e-7);
    }
}
