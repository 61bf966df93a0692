namespace Inspect.Benchmarks;

/// <summary>What one call costs: the least processor time of many batches after a warm-up, because other work on the machine only ever
/// adds, and the bytes that it allocates.</summary>
internal readonly record struct Cost(TimeSpan Time, long Bytes)
{
    public const int Batches = 15;
    private static readonly TimeSpan WarmUp = TimeSpan.FromMilliseconds(300);
    private static readonly TimeSpan LeastBatch = TimeSpan.FromMilliseconds(10);

    /// <param name="call">What is measured; its result is kept so that the work cannot be left out.</param>
    public static Cost Of(Func<double> call)
    {
        var kept = 0.0;

        // Code is compiled a second time, and better, once it has run often; the batches begin after that.
        for (var (start, runs) = (Now, 0); Now - start < WarmUp || runs < 10; runs++)
        {
            kept += call();
        }

        var calls = 1;
        while (Batch(call, calls, ref kept).Time < LeastBatch)
        {
            calls *= 2;
        }

        var least = new Cost(TimeSpan.MaxValue, 0);
        for (var i = 0; i < Batches; i++)
        {
            var batch = Batch(call, calls, ref kept);
            least = batch.Time / calls < least.Time ? new Cost(batch.Time / calls, batch.Bytes / calls) : least;
        }

        GC.KeepAlive(kept);
        return least;
    }

    private static TimeSpan Now => Environment.CpuUsage.TotalTime;

    private static Cost Batch(Func<double> call, int calls, ref double kept)
    {
        var (start, bytes) = (Now, GC.GetAllocatedBytesForCurrentThread());
        for (var i = 0; i < calls; i++)
        {
            kept += call();
        }

        return new Cost(Now - start, GC.GetAllocatedBytesForCurrentThread() - bytes);
    }
}
