namespace Inspect.Station.Web;

/// <summary>Round numbers for the grid lines of a chart.</summary>
public static class Scale
{
    private const double Close = 1e-9;

    /// <summary>The smallest of 1, 2, 2.5 or 5 times a power of ten that divides <paramref name="span"/> into
    /// at most <paramref name="most"/> steps.</summary>
    /// <param name="span">Above zero.</param>
    /// <param name="most">At least one.</param>
    public static double Step(double span, int most)
    {
        var least = span / most;
        var power = Math.Pow(10, Math.Floor(Math.Log10(least)));
        foreach (var times in (double[])[1, 2, 2.5, 5])
        {
            if (times * power >= least * (1 - Close))
            {
                return times * power;
            }
        }

        return 10 * power;
    }

    /// <summary>The same for counts: a whole number.</summary>
    public static int WholeStep(int span, int most) => (int)Math.Ceiling(Math.Max(1, Step(Math.Max(1, span), most)));

    /// <summary>The multiples of <paramref name="step"/> from <paramref name="low"/> to <paramref name="high"/>.</summary>
    public static IEnumerable<double> Ticks(double low, double high, double step)
    {
        var first = (long)Math.Ceiling((low / step) - Close);
        var last = (long)Math.Floor((high / step) + Close);
        for (var i = first; i <= last; i++)
        {
            yield return i * step;
        }
    }
}
