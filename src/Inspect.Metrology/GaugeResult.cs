namespace Inspect.Metrology;

/// <summary>How a gauge is rated by its share of what varies.</summary>
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
/// <param name="Method">How it was found; the methods differ, so it is printed beside every figure.</param>
/// <param name="Repeatability">One inspector, one part, again and again.</param>
/// <param name="Reproducibility">Between inspectors.</param>
/// <param name="Part">Between the parts themselves.</param>
/// <param name="RepeatabilityFreedom">Degrees of freedom behind the repeatability.</param>
/// <remarks>The terms, the bands and the factor 1.41 are those of the AIAG's Measurement Systems Analysis, fourth edition, 2010.</remarks>
public sealed record GaugeResult(string Method, double Repeatability, double Reproducibility, double Part, int RepeatabilityFreedom)
{
    private const double CategoriesFactor = 1.41;
    private const double GoodPercent = 10;
    private const double ConditionalPercent = 30;

    /// <summary>Fewer distinct categories than this cannot tell balls apart.</summary>
    public const int CategoriesWanted = 5;

    /// <summary>Repeatability and reproducibility together.</summary>
    public double Gauge => Math.Sqrt((Repeatability * Repeatability) + (Reproducibility * Reproducibility));

    /// <summary>The gauge and the parts together.</summary>
    public double Total => Math.Sqrt((Gauge * Gauge) + (Part * Part));

    /// <summary>A standard deviation as per cent of the total; 0 when nothing varies. These do not add up to 100.</summary>
    public double PercentOf(double deviation) => Total == 0 ? 0 : 100 * deviation / Total;

    /// <summary>How many groups of parts the gauge tells apart, not yet truncated; null when the gauge does not vary at all.</summary>
    public double? CategoriesUntruncated => Gauge == 0 ? null : CategoriesFactor * Part / Gauge;

    /// <summary>The same as a whole number.</summary>
    public int? Categories => CategoriesUntruncated is { } categories ? (int)Math.Min(categories, int.MaxValue) : null;

    /// <summary>What the share of the gauge in all variation is called.</summary>
    public GaugeBand Band => PercentOf(Gauge) switch
    {
        <= GoodPercent => GaugeBand.Good,
        <= ConditionalPercent => GaugeBand.Conditional,
        _ => GaugeBand.Poor,
    };
}
