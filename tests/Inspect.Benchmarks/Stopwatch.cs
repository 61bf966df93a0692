namespace Inspect.Benchmarks;

/// <summary>Measures how long one call takes, as the median of batches after a warm-up.</summary>
internal static class Stopwatch
{
    private const int Batches = 15;
    private static readonly TimeSpan LeastBatch = TimeSpan.FromMilliseconds(40);

    /// <param name="call">What is measured; its result is kept so that the work cannot be left out.</param>
    public static TimeSpan Median(Func<double> call)
    {
        var kept = 0.0;
        var calls = 1;
        while (Batch(call, calls, ref kept) < LeastBatch)
        {
            calls *= 2;
        }

        var times = new TimeSpan[Batches];
        for (var i = 0; i < Batches; i++)
        {
            times[i] = Batch(call, calls, ref kept) / calls;
        }

        GC.KeepAlive(kept);
        Array.Sort(times);
        return times[Batches / 2];
    }

    private static TimeSpan Batch(Func<double> call, int calls, ref double kept)
    {
        var start = System.Diagnostics.Stopwatch.GetTimestamp();
        for (var i = 0; i < calls; i++)
        {
            kept += call();
        }

        return System.Diagnostics.Stopwatch.GetElapsedTime(start);
    }
}
