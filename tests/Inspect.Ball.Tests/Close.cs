namespace Inspect.Ball.Tests;

/// <summary>Closeness within a stated tolerance, with both numbers in full when it fails.</summary>
internal static class Close
{
    public const double Relative = 1e-6;
    public const double MomentOzIn = 1e-6;
    public const double RgIn = 1e-6;
    public const double DifferentialIn = 2e-6;

    public static void Within(double expected, double actual, double tolerance, string what = "value") =>
        Assert.True(
            Math.Abs(expected - actual) <= tolerance,
            $"{what}: expected {expected:R} within {tolerance:R}, was {actual:R}, off by {actual - expected:E2}");

    public static void Relatively(double expected, double actual, double tolerance = Relative, string what = "value") =>
        Within(expected, actual, tolerance * Math.Abs(expected), what);

    public static void Within(Vector expected, Vector actual, double tolerance, string what = "vector")
    {
        Within(expected.X, actual.X, tolerance, what + " x");
        Within(expected.Y, actual.Y, tolerance, what + " y");
        Within(expected.Z, actual.Z, tolerance, what + " z");
    }

    public static void Principal(double[] expected, MassProperties actual)
    {
        Within(expected[0], actual.PrincipalRgIn.LowIn, RgIn, "low RG");
        Within(expected[1], actual.PrincipalRgIn.MiddleIn, RgIn, "middle RG");
        Within(expected[2], actual.PrincipalRgIn.HighIn, RgIn, "high RG");
    }
}
