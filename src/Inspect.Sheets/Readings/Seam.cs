namespace Inspect.Sheets.Readings;

/// <summary>The one place that turns a floating-point result into the exact number that limits are compared with, and back.</summary>
public static class Seam
{
    /// <summary>The exact number nearest to <paramref name="value"/> in 15 significant digits.</summary>
    /// <exception cref="OverflowException">The value is not finite or beyond about 7.9e28.</exception>
    public static decimal ToDecimal(double value) => (decimal)value;

    /// <summary>The floating-point number nearest to <paramref name="value"/>.</summary>
    public static double ToDouble(decimal value) => (double)value;
}
