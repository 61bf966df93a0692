using Inspect.Ball;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Described;

/// <summary>A reading as the physics needs it: a <see langword="double"/> in inches, ounces or degrees.</summary>
public static class Physical
{
    /// <summary>A reading's value in the unit that the physics uses for its quantity: in, oz, degrees, g/cm³, in³ or oz·in.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The physics does not use the quantity: a
    /// hardness, a temperature, a time or a roughness.</exception>
    public static double Value(Reading reading) => Seam.ToDouble(reading.Value / BaseUnits(reading.Quantity));

    /// <summary>A density reading as a density.</summary>
    /// <exception cref="DescriptionException">No material has this density.</exception>
    public static Density DensityOf(Reading reading) => Density.FromGPerCm3(Value(reading));

    private static decimal BaseUnits(Quantity quantity) => quantity switch
    {
        Quantity.Length or Quantity.SignedLength => Units.MillimetresPerInch,
        Quantity.Weight or Quantity.Imbalance => Units.GramsPerOunce,
        Quantity.Volume => Units.CubicCentimetresPerCubicInch,
        Quantity.Angle or Quantity.Density or Quantity.Moment => 1m,
        _ => throw new ArgumentOutOfRangeException(nameof(quantity), quantity, "The physics does not use this quantity."),
    };
}
