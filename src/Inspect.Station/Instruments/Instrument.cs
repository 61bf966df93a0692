using Inspect.Metrology;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Access;

namespace Inspect.Station.Instruments;

/// <summary>One instrument of this station as it stands: what it is, and what is known of it.</summary>
public sealed record Instrument
{
    /// <summary>The short name that readings give it; it never changes, because the register carries it.</summary>
    public required string Name { get; init; }

    public required InstrumentKind Kind { get; init; }

    /// <summary>Which change of it this is, from 1.</summary>
    public long Version { get; init; } = 1;

    /// <summary>The maker's serial number.</summary>
    public string? Serial { get; init; }

    /// <summary>The step of its display.</summary>
    public Reading? Resolution { get; init; }

    /// <summary>The standard deviation of one inspector's readings of one thing.</summary>
    public Reading? Repeatability { get; init; }

    /// <summary>Degrees of freedom behind the repeatability; null where not known.</summary>
    public int? RepeatabilityFreedom { get; init; }

    /// <summary>Where the repeatability was found.</summary>
    public string? RepeatabilityFrom { get; init; }

    /// <summary>How far it may be off by its certificate; of a check weight or block, how far that itself may be off.</summary>
    public Reading? Tolerance { get; init; }

    /// <summary>The standard uncertainty of its calibration.</summary>
    public Reading? Calibration { get; init; }

    public DateOnly? Calibrated { get; init; }

    /// <summary>The last day on which the calibration holds; null: no day was set.</summary>
    public DateOnly? Due { get; init; }

    public string? Certificate { get; init; }

    /// <summary>A balance scale's constant, a length.</summary>
    public Reading? ScaleConstant { get; init; }

    /// <summary>What a check weight or block is worth.</summary>
    public Reading? Value { get; init; }

    /// <summary>A check weight's class of OIML R 111; null where its certificate says how far it may be off.</summary>
    public string? AccuracyClass { get; init; }

    public bool IsRetired { get; init; }

    /// <summary>When this was written down.</summary>
    public DateTimeOffset At { get; init; }

    /// <summary>By whom.</summary>
    public PersonId By { get; init; }

    /// <summary>Where its page is.</summary>
    public string Address => AddressOf(Name);

    /// <summary>What is known of its readings' uncertainty, in base units, or null when that is nothing.</summary>
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
                parts.Add(new Contribution("repeatability", Seam.ToDouble(repeatability.Value), RepeatabilityFreedom ?? double.PositiveInfinity));
            }

            if (Calibration is { } calibration)
            {
                parts.Add(new Contribution("calibration", Seam.ToDouble(calibration.Value)));
            }

            return parts.Count == 0 ? null : CombinedUncertainty.Of(parts);
        }
    }

    /// <summary>How far a standard may itself be off, in base units, or null when nothing says so.</summary>
    public decimal? OwnError => Value is { } value && AccuracyClass is { } name ? CheckWeightClass.ErrorOf(name, value.Value) : Tolerance?.Value;

    /// <summary>Where the page of an instrument is.</summary>
    public static string AddressOf(string name) => $"/instruments/{Uri.EscapeDataString(name)}";
}
