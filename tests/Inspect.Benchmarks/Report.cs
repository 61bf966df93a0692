using System.Globalization;

namespace Inspect.Benchmarks;

/// <summary>Prints one measured line.</summary>
internal static class Report
{
    public static void Line(string what, TimeSpan time, TimeSpan reference) =>
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{what,-52} {time.TotalMicroseconds,12:0.00} µs   {time / reference,10:0.0} x"));

    public static void Bytes(string what, double bytes, double reference) =>
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-52} {bytes,12:0} bytes {bytes / reference,9:0.0} x"));
}
