using MathNet.Numerics.Distributions;

namespace Inspect.Metrology;

/// <summary>The true share that a counted share is compatible with: the exact interval of Clopper and Pearson.</summary>
/// <remarks>
/// C. J. Clopper and E. S. Pearson, The use of confidence or fiducial limits illustrated in the case of the binomial, Biometrika 26 (1934).
/// At any count it contains the true share at least as often as the confidence says. For that it is wider than other intervals.
/// </remarks>
/// <param name="Low">The lower end, 0 to 1; 0 when the count is 0.</param>
/// <param name="High">The upper end, 0 to 1; 1 when everything was counted.</param>
public readonly record struct BinomialInterval(double Low, double High)
{
    /// <summary>The interval for <paramref name="count"/> of <paramref name="of"/>.</summary>
    /// <param name="count">How often it happened, 0 to <paramref name="of"/>.</param>
    /// <param name="of">How often it could have happened; for 0 the interval is 0 to 1.</param>
    /// <param name="confidence">How often, at least, the interval contains the true share; between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The count is not between 0 and <paramref name="of"/>, or the confidence not between
    /// 0 and 1.</exception>
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
