using Inspect.Metrology;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Access;

namespace Inspect.Station.Instruments;

/// <summary>One instrument of this station as it is now.</summary>
public sealed record Instrument
{
    /// <summary>The short name that readings use. It never changes, because it is in the register.</summary>
    public required string Name { get; init; }

    public required InstrumentKind Kind { get; init; }

    /// <summary>The number of its latest change, from 1.</summary>
    public long Version { get; init; } = 1;

    /// <summary>The maker's serial number.</summary>
    public string? Serial { get; init; }

    /// <summary>The step of its display.</summary>
    public Reading? Resolution { get; init; }

    /// <summary>The standard deviation of one inspector's readings of one thing.</summary>
    public Reading? Repeatability { get; init; }

    /// <summary>The degrees of freedom of the repeatability; null when not known.</summary>
    public int? RepeatabilityFreedom { get; init; }

    /// <summary>Where the repeatability comes from.</summary>
    public string? RepeatabilityFrom { get; init; }

    /// <summary>How far it may be off by its certificate. For a check weight or block: how far its own value may be off.</summary>
    public Reading? Tolerance { get; init; }

    /// <summary>The standard uncertainty of its calibration.</summary>
    public Reading? Calibration { get; init; }

    public DateOnly? Calibrated { get; init; }

    /// <summary>The last day of the calibration; null when no day is set.</summary>
    public DateOnly? Due { get; init; }

    public string? Certificate { get; init; }

    /// <summary>A balance scale's constant, a length.</summary>
    public Reading? ScaleConstant { get; init; }

    /// <summary>A ring gauge's limits, as it is marked: as diameters, as circumferences, or as both.</summary>
    public (GaugeLimits? Diameter, GaugeLimits? Circumference) Rings { get; init; }

    /// <summary>The value of a check weight or block.</summary>
    public Reading? Value { get; init; }

    /// <summary>A check weight's class of OIML R 111; null when its certificate has a tolerance instead.</summary>
    public string? AccuracyClass { get; init; }

    public bool IsRetired { get; init; }

    /// <summary>When this change was recorded.</summary>
    public DateTimeOffset At { get; init; }

    /// <summary>Who recorded it.</summary>
    public PersonId By { get; init; }

    /// <summary>The address of its page.</summary>
    public string Address => AddressOf(Name);

    /// <summary>The uncertainty of its readings in base units; null when nothing is known of it.</summary>
    public CombinedUncertainty? Uncertainty
    {
        get
        {
            var parts = new List<Contribution>();
            if (Resolution is { } step)
            {
                parts.Add(Contribution.OfResolution(Seam.ToDouble(step.Value)));
            }

            if (Repeatability is { } repeatability)
            {
                parts.Add(new Contribution("repeatability", Seam.ToDouble(repeatability.Value),
                    RepeatabilityFreedom ?? double.PositiveInfinity));
            }

            if (Calibration is { } calibration)
            {
                parts.Add(new Contribution("calibration", Seam.ToDouble(calibration.Value)));
            }

            return parts.Count == 0 ? null : CombinedUncertainty.Of(parts);
        }
    }

    /// <summary>How far a standard's own value may be off, in base units; null when not known.</summary>
    public decimal? OwnError =>
        Value is { } value && AccuracyClass is { } name ? CheckWeightClass.ErrorOf(name, value.Value) : Tolerance?.Value;

    /// <summary>The address of an instrument's page.</summary>
    public static string AddressOf(string name) => $"/instruments/{Uri.EscapeDataString(name)}";
}
