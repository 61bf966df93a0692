namespace Inspect.Ball;

/// <summary>Finds where a smooth function of one number is zero.</summary>
internal static class Roots
{
    /// <summary>The root between two ends at which the function is known and has opposite signs, by the rule of false position in the
    /// form of Anderson and Björck. It stops when two guesses in a row agree.</summary>
    /// <exception cref="ArgumentException">The function has the same sign at both ends.</exception>
    public static double Between(Func<double, double> function, (double X, double F) one, (double X, double F) other, double tolerance)
    {
        if (Math.Sign(one.F) * Math.Sign(other.F) > 0)
        {
            throw new ArgumentException("The function has the same sign at both ends.", nameof(function));
        }

        // The bound is only for a tolerance below the last bit.
        for (var step = 0; step < 200 && one.F != 0; step++)
        {
            var guess = other.X - (other.F * (other.X - one.X) / (other.F - one.F));
            var isNear = Math.Abs(guess - other.X) <= tolerance;
            var at = (X: guess, F: function(guess));

            // The end that stays a second time counts less, or it would stay for ever.
            var share = 1 - (at.F / other.F);
            one = share >= 1 ? other : (one.X, one.F * (share > 0 ? share : 0.5));
            other = at;
            if (isNear || other.F == 0)
            {
                return other.X;
            }
        }

        return one.F == 0 ? one.X : other.X;
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
}
