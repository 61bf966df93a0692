namespace Inspect.Ball;

/// <summary>Finds where a smooth function of one number is zero.</summary>
internal static class Roots
{
    /// <summary>The root between two ends at which the function has opposite signs, by Ridders' rule.</summary>
    /// <exception cref="ArgumentException">The function has the same sign at both ends.</exception>
    public static double Between(Func<double, double> function, double low, double high, double tolerance)
    {
        var atLow = function(low);
        var atHigh = function(high);
        if (atLow == 0 || atHigh == 0)
        {
            return atLow == 0 ? low : high;
        }

        if (Math.Sign(atLow) == Math.Sign(atHigh))
        {
            throw new ArgumentException("The function has the same sign at both ends.", nameof(function));
        }

        // Each step at least halves the bracket. The bound is only for a tolerance below the last bit.
        for (var step = 0; step < 200 && high - low > tolerance; step++)
        {
            var middle = (low + high) / 2;
            var atMiddle = function(middle);
            if (atMiddle == 0)
            {
                return middle;
            }

            var shift = (middle - low) * Math.Sign(atLow) * atMiddle / Math.Sqrt((atMiddle * atMiddle) - (atLow * atHigh));
            var guess = Math.Clamp(middle + shift, low, high);
            var atGuess = function(guess);
            if (atGuess == 0)
            {
                return guess;
            }

            (low, atLow, high, atHigh) = Narrowed((low, atLow), (middle, atMiddle), (guess, atGuess), (high, atHigh));
        }

        return (low + high) / 2;
    }

    /// <summary>The real roots of a·x² + 2·b·x + c, smaller first. False when there is none, or when
    /// the equation does not depend on x.</summary>
    public static bool Quadratic(double a, double halfB, double c, out double first, out double second)
    {
        first = 0;
        second = 0;
        if (a == 0)
        {
            if (halfB == 0)
            {
                return false;
            }

            first = second = -c / (2 * halfB);
            return true;
        }

        var discriminant = (halfB * halfB) - (a * c);
        if (discriminant < 0)
        {
            return false;
        }

        var q = -(halfB + Math.CopySign(Math.Sqrt(discriminant), halfB));
        var one = q / a;
        var other = q == 0 ? 0 : c / q;
        (first, second) = one <= other ? (one, other) : (other, one);
        return true;
    }

    private static (double Low, double AtLow, double High, double AtHigh) Narrowed(
        (double X, double F) low, (double X, double F) middle, (double X, double F) guess, (double X, double F) high)
    {
        var (left, right) = middle.X <= guess.X ? (middle, guess) : (guess, middle);
        if (Math.Sign(low.F) != Math.Sign(left.F))
        {
            return (low.X, low.F, left.X, left.F);
        }

        return Math.Sign(left.F) != Math.Sign(right.F) ? (left.X, left.F, right.X, right.F) : (right.X, right.F, high.X, high.F);
    }
}
