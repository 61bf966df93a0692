using System.Globalization;

namespace Inspect.Benchmarks;

/// <summary>Prints one measured line.</summary>
internal static class Report
{
    public static void Head() => Console.WriteLine(
        $"{"work",-46} {"time",13} {"allocated",13}   {"beside",-24} {"time",13} {"ratio",9}   (processor time, least of "
            + $"{Cost.Batches} batches)");

    public static void Line(string what, Cost cost, string beside, Cost reference) => Console.WriteLine(string.Create(
        CultureInfo.InvariantCulture,
        $"{what,-46} {cost.Time.TotalMicroseconds,10:0.00} µs {cost.Bytes,11} B   {beside,-24} "
            + $"{reference.Time.TotalMicroseconds,10:0.00} µs "
            + $"{cost.Time / reference.Time,9:0.0}"));

    public static void Line(string what, TimeSpan time, TimeSpan reference) =>
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{what,-52} {time.TotalMicroseconds,12:0.00} µs   {time / reference,10:0.0} x"));

    public static void Bytes(string what, double bytes, double reference) =>
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-52} {bytes,12:0} bytes {bytes / reference,9:0.0} x"));
}
