namespace Inspect.Metrology;

/// <summary>How many of one inspector's readings have a property, and the share that was to be expected.</summary>
/// <param name="Found">How many readings have it.</param>
/// <param name="Of">How many readings there are.</param>
/// <param name="Expected">The share to be expected, 0 to 1; null when there is nothing to compare with.</param>
public sealed record CountedShare(int Found, int Of, double? Expected)
{
    /// <summary>With fewer readings than this, nothing is concluded.</summary>
    public const int Fewest = 10;

    /// <summary>The shares that the count is compatible with at 95 %.</summary>
    public BinomialInterval Interval => BinomialInterval.Of(Found, Of);

    /// <summary>Whether the count is more than chance would explain: the whole interval is above the expected share.</summary>
    public bool IsMore => Of >= Fewest && Expected is { } expected && Interval.Low > expected;
}
