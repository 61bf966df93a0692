using System.Globalization;
using Inspect.Ball;

namespace Inspect.Advice;

/// <summary>How advice writes its figures: no more digits than are known, and ranges as ranges.</summary>
public static class AdviceFigures
{
    /// <summary>A length as a mixed fraction in steps of an inch.</summary>
    public static string Fraction(double inches, int denominator)
    {
        var parts = (long)Math.Round(inches * denominator);
        var (whole, rest, below) = (parts / denominator, parts % denominator, (long)denominator);
        while (rest > 0 && rest % 2 == 0)
        {
            (rest, below) = (rest / 2, below / 2);
        }

        return rest == 0 ? FormattableString.Invariant($"{whole}")
            : whole == 0 ? FormattableString.Invariant($"{rest}/{below}")
            : FormattableString.Invariant($"{whole} {rest}/{below}");
    }

    /// <summary>An estimate of ounces: its range, or that its sign is not known.</summary>
    public static string Range(Estimate estimate) => Math.Max(Math.Abs(estimate.Low), Math.Abs(estimate.High)) < 0.005 ? "0"
        : !estimate.HasSign ? string.Create(CultureInfo.InvariantCulture, $"{Signed(estimate.Low)} to {Signed(estimate.High)}")
        : Signed(estimate.Low) == Signed(estimate.High) ? Signed(estimate.Low)
        : Math.Abs(estimate.Low) < Math.Abs(estimate.High) ? $"{Signed(estimate.Low)} to {Signed(estimate.High)}"
            : $"{Signed(estimate.High)} to {Signed(estimate.Low)}";

    /// <summary>A change of RG or differential in thousandths of an inch;
    /// where the range includes zero, only its larger end is given.</summary>
    public static string GyrationChange(Estimate change)
    {
        var (low, high) = (Math.Round(change.Low, 3), Math.Round(change.High, 3));
        return low == 0 && high == 0 ? "no change an instrument would show"
            : !change.HasSign
                ? string.Create(CultureInfo.InvariantCulture, $"up or down by no more than {Math.Max(-low, high):0.000}\u00a0in")
            : low == high ? string.Create(CultureInfo.InvariantCulture, $"{low:+0.000;−0.000}\u00a0in")
            : change.Low > 0 ? string.Create(CultureInfo.InvariantCulture, $"{low:+0.000;−0.000;0} to {high:+0.000;−0.000}\u00a0in")
            : string.Create(CultureInfo.InvariantCulture, $"{high:+0.000;−0.000;0} to {low:+0.000;−0.000}\u00a0in");
    }

    /// <summary>A change in ounces with its sign and two decimals; 0 where it rounds to zero.</summary>
    public static string Signed(double ounces) =>
        Math.Round(ounces, 2) == 0 ? "0" : ounces.ToString("+0.00;−0.00", CultureInfo.InvariantCulture);

    /// <summary>Ounces with one or two decimals.</summary>
    public static string Ounces(double ounces) => string.Create(CultureInfo.InvariantCulture, $"{ounces:0.0#} oz");

    /// <summary>A length in hundredths of an inch, as fine as a wall between holes is known.</summary>
    public static string Hundredths(double inches) => string.Create(CultureInfo.InvariantCulture, $"{inches:0.00} in");

    /// <summary>Ounces as pounds and ounces, to a tenth of an ounce.</summary>
    public static string Pounds(double ounces)
    {
        var rounded = Math.Round(ounces, 1);
        var pounds = Math.Floor(rounded / 16);
        return string.Create(CultureInfo.InvariantCulture, $"{pounds:0} lb {rounded - (16 * pounds):0.#} oz");
    }
}
