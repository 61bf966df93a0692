using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Tests.NearLimits;

public class UncertaintyTests
{
    /// <summary>A tenth of an ounce on the display, 0.03 oz of calibration: arithmetic after GUM
    /// (JCGM 100:2008) 5.1.2 and F.2.2.1.</summary>
    [Fact]
    public void Standard_WithACalibration_IsTheRootSumOfSquares()
    {
        var uncertainty = new Uncertainty(RuleQuantity.LeftRight, Ounces("0.1"), Ounces("0.03"), null, Ounces("0.03"));

        Assert.Equal(0.051316, Seam.ToDouble(uncertainty.Standard() / Units.GramsPerOunce), 5e-7);
    }

    private static Reading Ounces(string text) => ReadingParser.Parse(text, Quantity.Imbalance, Unit.Ounce).Reading!;
}
