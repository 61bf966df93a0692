namespace Inspect.Metrology;

/// <summary>How many of one inspector's readings have something, beside the share that was to be expected.</summary>
/// <param name="Found">How many have it.</param>
/// <param name="Of">Of how many.</param>
/// <param name="Expected">The share to be expected, 0 to 1; null where there is nothing to compare with.</param>
public sealed record CountedShare(int Found, int Of, double? Expected)
{
    /// <summary>Fewer readings than this say nothing.</summary>
    public const int Fewest = 10;

    /// <summary>The shares that the count is compatible with at 95 %.</summary>
    public BinomialInterval Interval => BinomialInterval.Of(Found, Of);

    /// <summary>Whether the count is more than chance readily makes of the expected share: the whole interval lies above it.</summary>
    public bool IsMore => Of >= Fewest && Expected is { } expected && Interval.Low > expected;
}
