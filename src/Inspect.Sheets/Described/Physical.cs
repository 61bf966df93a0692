using Inspect.Ball;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Described;

/// <summary>A reading as physics takes it: the <see langword="double"/> in inches, ounces or degrees that
/// formulas take.</summary>
public static class Physical
{
    /// <summary>The value of a reading in the unit that physics uses for its quantity: in, oz, degrees, g/cm³, in³ or oz·in.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Nothing physical is measured: a hardness, a temperature or a time.</exception>
    public static double Value(Reading reading) => Seam.ToDouble(reading.Value / BaseUnits(reading.Quantity));

    /// <summary>A density reading as a density.</summary>
    /// <exception cref="DescriptionException">No material is as dense.</exception>
    public static Density DensityOf(Reading reading) => Density.FromGPerCm3(Value(reading));

    private static decimal BaseUnits(Quantity quantity) => quantity switch
    {
        Quantity.Length or Quantity.SignedLength => Units.MillimetresPerInch,
        Quantity.Weight or Quantity.Imbalance => Units.GramsPerOunce,
        Quantity.Volume => Units.CubicCentimetresPerCubicInch,
        Quantity.Angle or Quantity.Density or Quantity.Moment => 1m,
        _ => throw new ArgumentOutOfRangeException(nameof(quantity), quantity, "Physics takes no such reading."),
    };
}
