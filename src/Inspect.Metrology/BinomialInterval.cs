using MathNet.Numerics.Distributions;

namespace Inspect.Metrology;

/// <summary>What a share that was counted says of the share behind it: the exact interval of Clopper and Pearson.</summary>
/// <remarks>
/// C. J. Clopper and E. S. Pearson, The use of confidence or fiducial limits illustrated in the case of the binomial, Biometrika 26 (1934).
/// It holds the true share at least as often as it says, at any count; it is wider than other intervals for that.
/// </remarks>
/// <param name="Low">The lower end, 0 to 1; 0 where nothing was counted.</param>
/// <param name="High">The upper end, 0 to 1; 1 where everything was.</param>
public readonly record struct BinomialInterval(double Low, double High)
{
    /// <summary>The interval for <paramref name="count"/> of <paramref name="of"/>.</summary>
    /// <param name="count">How often it happened, 0 to <paramref name="of"/>.</param>
    /// <param name="of">How often it could have; nothing at all says nothing: 0 to 1.</param>
    /// <param name="confidence">How often the interval holds the true share at least, between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The count is no share of <paramref name="of"/>, or the confidence no share.</exception>
    public static BinomialInterval Of(long count, long of, double confidence = 0.95)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(count, of);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(confidence, 0);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(confidence, 1);
        var tail = (1 - confidence) / 2;
        return new BinomialInterval(
            count == 0 ? 0 : Beta.InvCDF(count, of - count + 1, tail),
            count == of ? 1 : Beta.InvCDF(count + 1, of - count, 1 - tail));
    }
}
