namespace Inspect.Ball;

/// <summary>A density, kept in ounces (avoirdupois, as a mass) per cubic inch; never negative, always finite.</summary>
public readonly record struct Density
{
    /// <summary>Ounces per cubic inch in one gram per cubic centimetre: 16.387064 cm³ to the
    /// cubic inch, 28.349523125 g to the ounce.</summary>
    public const double OzPerIn3InOneGPerCm3 = 16.387064 / 28.349523125;

    private Density(double ozPerIn3)
    {
        OzPerIn3 = ozPerIn3;
    }

    /// <summary>In ounces per cubic inch, 0 to 100.</summary>
    public double OzPerIn3 { get; }

    /// <summary>In grams per cubic centimetre.</summary>
    public double GPerCm3 => OzPerIn3 / OzPerIn3InOneGPerCm3;

    /// <exception cref="DescriptionException">The value is negative, not finite or above 100 oz/in³.</exception>
    public static Density FromOzPerIn3(double ozPerIn3)
    {
        var faults = new FaultList();
        faults.Within("density", ozPerIn3, 0, 100, "a density in oz/in3");
        faults.ThrowIfAny();
        return new Density(ozPerIn3);
    }

    /// <exception cref="DescriptionException">The value is negative, not finite or above 100 oz/in³.</exception>
    public static Density FromGPerCm3(double gPerCm3) => FromOzPerIn3(gPerCm3 * OzPerIn3InOneGPerCm3);
}
