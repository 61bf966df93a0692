namespace Inspect.Metrology.Tests;

/// <summary>The interval against its definition (Clopper and Pearson, Biometrika 26, 1934): at each end a tail of the binomial
/// distribution, summed here term by term, is half of what the confidence leaves.</summary>
public class BinomialIntervalTests
{
    [Fact]
    public void Of_FiveOfSeventeen_IsTenToFiftySixPerCent()
    {
        var interval = BinomialInterval.Of(5, 17);

        // Common worked example of the exact interval at 95 %, to whole per cent.
        Assert.Equal(0.10, interval.Low, 2);
        Assert.Equal(0.56, interval.High, 2);
    }

    [Theory]
    [InlineData(1, 3, 0.95)]
    [InlineData(5, 17, 0.95)]
    [InlineData(12, 240, 0.95)]
    [InlineData(37, 40, 0.99)]
    [InlineData(600, 1000, 0.90)]
    public void Of_AnyCount_LeavesHalfOfTheRestInEachTail(int count, int of, double confidence)
    {
        var interval = BinomialInterval.Of(count, of, confidence);

        Assert.Equal((1 - confidence) / 2, Enumerable.Range(count, of - count + 1).Sum(k => Probability(k, of, interval.Low)), 7);
        Assert.Equal((1 - confidence) / 2, Enumerable.Range(0, count + 1).Sum(k => Probability(k, of, interval.High)), 7);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(20)]
    [InlineData(10_000)]
    public void Of_NoneOrAll_ReachesTheEndAndLeavesTheClosedForm(int of)
    {
        // With nothing counted (1 - high)^n = 0.025; with everything the same from the other side.
        var end = Math.Pow(0.025, 1.0 / of);

        var none = BinomialInterval.Of(0, of);
        var all = BinomialInterval.Of(of, of);

        Assert.Equal(0, none.Low);
        Assert.Equal(1 - end, none.High, 7);
        Assert.Equal(end, all.Low, 7);
        Assert.Equal(1, all.High);
    }

    [Fact]
    public void Of_NothingAtAll_SaysNothing() => Assert.Equal(new BinomialInterval(0, 1), BinomialInterval.Of(0, 0));

    [Fact]
    public void Of_MoreThanThereWere_Throws() => Assert.Throws<ArgumentOutOfRangeException>(() => BinomialInterval.Of(3, 2));

    private static double Probability(int count, int of, double share)
    {
        // Logarithms, so that a thousand factors neither overflow nor vanish.
        var log = Enumerable.Range(1, count).Sum(k => Math.Log((double)(of - count + k) / k));
        return Math.Exp(log + (count * Math.Log(share)) + ((of - count) * Math.Log(1 - share)));
    }
}
