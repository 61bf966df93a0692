namespace Inspect.Metrology;

/// <summary>How a gauge is rated, by its share of all variation.</summary>
public enum GaugeBand
{
    /// <summary>Up to 10 % of the study variation.</summary>
    Good,

    /// <summary>Up to 30 %: fit for some uses.</summary>
    Conditional,

    /// <summary>More than 30 %.</summary>
    Poor,
}

/// <summary>What a gauge study found, as standard deviations in the unit of the readings.</summary>
/// <param name="Method">How it was found. The methods differ, so it is printed with every figure.</param>
/// <param name="Repeatability">Between readings of one part by one inspector.</param>
/// <param name="Reproducibility">Between inspectors.</param>
/// <param name="Part">Between the parts.</param>
/// <param name="RepeatabilityFreedom">Degrees of freedom of the repeatability.</param>
/// <remarks>The terms, the bands and the factor 1.41 are those of the AIAG's Measurement Systems Analysis, fourth edition, 2010.</remarks>
public sealed record GaugeResult(string Method, double Repeatability, double Reproducibility, double Part, int RepeatabilityFreedom)
{
    private const double CategoriesFactor = 1.41;
    private const double GoodPercent = 10;
    private const double ConditionalPercent = 30;

    /// <summary>A gauge with fewer distinct categories than this cannot tell balls apart.</summary>
    public const int CategoriesWanted = 5;

    /// <summary>Repeatability and reproducibility together.</summary>
    public double Gauge => Math.Sqrt((Repeatability * Repeatability) + (Reproducibility * Reproducibility));

    /// <summary>The gauge and the parts together.</summary>
    public double Total => Math.Sqrt((Gauge * Gauge) + (Part * Part));

    /// <summary>A standard deviation in per cent of the total; 0 when nothing varies. These percentages do not add up to 100.</summary>
    public double PercentOf(double deviation) => Total == 0 ? 0 : 100 * deviation / Total;

    /// <summary>How many groups of parts the gauge tells apart, not yet truncated; null when the gauge does not vary at all.</summary>
    public double? CategoriesUntruncated => Gauge == 0 ? null : CategoriesFactor * Part / Gauge;

    /// <summary>The same as a whole number.</summary>
    public int? Categories => CategoriesUntruncated is { } categories ? (int)Math.Min(categories, int.MaxValue) : null;

    /// <summary>The rating of the gauge's share of all variation.</summary>
    public GaugeBand Band => PercentOf(Gauge) switch
    {
        <= GoodPercent => GaugeBand.Good,
        <= ConditionalPercent => GaugeBand.Conditional,
        _ => GaugeBand.Poor,
    };
}
