namespace Inspect.Ball;

/// <summary>A ball before any hole is drilled: its size, its weight and the inside that is assumed.</summary>
public sealed record BallDescription
{
    /// <summary>A ball under this weight, 11 lb, is built differently: a light core in a dense shell; common practice, no source.</summary>
    public const double LightOz = 176;

    private BallDescription(double diameterIn, double grossOz, Interior interior)
    {
        DiameterIn = diameterIn;
        GrossOz = grossOz;
        Interior = interior;
    }

    /// <summary>The diameter over the undrilled surface in inches, above 0 and at most 20.</summary>
    public double DiameterIn { get; }

    /// <summary>Half the diameter, in inches.</summary>
    public double RadiusIn => DiameterIn / 2;

    /// <summary>The weight before drilling, in ounces. The weight of a layered ball follows from its layers.</summary>
    public double GrossOz { get; }

    /// <summary>The inside that is assumed.</summary>
    public Interior Interior { get; }

    /// <summary>The volume of the undrilled ball in cubic inches.</summary>
    public double VolumeIn3 => 4 * Math.PI / 3 * RadiusIn * RadiusIn * RadiusIn;

    /// <summary>The mean density: the weight before drilling over the volume.</summary>
    public Density MeanDensity => Density.FromOzPerIn3(GrossOz / VolumeIn3);

    /// <summary>Describes a ball of even density, or one fitted to declared figures, by its
    /// diameter and its weight before drilling.</summary>
    /// <exception cref="DescriptionException">A value cannot be that of a ball. Every such value is named.</exception>
    public static BallDescription Of(double diameterIn, double grossOz, Interior interior)
    {
        ArgumentNullException.ThrowIfNull(interior);
        var faults = new FaultList();
        var hasDiameter = CheckDiameter(diameterIn, faults);
        faults.Positive("gross", grossOz, 1000, "a ball's weight in ounces");
        if (interior is Interior.Layers)
        {
            faults.Add("gross", "The weight of a layered ball follows from its layers: leave the weight out.");
        }
        else if (interior is Interior.Calibrated calibrated && hasDiameter)
        {
            calibrated.CheckIn(diameterIn / 2, faults);
        }

        faults.ThrowIfAny();
        return new BallDescription(diameterIn, grossOz, interior);
    }

    /// <summary>Describes a ball by its diameter and its concentric layers.</summary>
    /// <exception cref="DescriptionException">The diameter is out of range, or the outermost layer does not end at the surface.</exception>
    public static BallDescription OfLayers(double diameterIn, Interior.Layers layers)
    {
        ArgumentNullException.ThrowIfNull(layers);
        var faults = new FaultList();
        var outermost = layers.OutermostFirst[0].RadiusIn;
        if (CheckDiameter(diameterIn, faults) && Math.Abs(outermost - (diameterIn / 2)) > 1e-9 * diameterIn)
        {
            faults.Add(
                "interior.layers[0].radius", outermost,
                $"the outermost layer ends at half the diameter, {FaultList.Text(diameterIn / 2)} in");
        }

        faults.ThrowIfAny();
        var weight = Body.ShellsOf(layers).Sum(step => step.MassOz);
        return new BallDescription(diameterIn, weight, layers);
    }

    private static bool CheckDiameter(double diameterIn, FaultList faults) =>
        faults.Positive("diameter", diameterIn, 20, "a ball's diameter in inches");
}
