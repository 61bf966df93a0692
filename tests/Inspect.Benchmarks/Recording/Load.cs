using System.Collections.Concurrent;
using Clock = System.Diagnostics.Stopwatch;

namespace Inspect.Benchmarks.Recording;

/// <summary>What a number of clients measured, each sending its next request when it has the answer to the last.</summary>
/// <param name="Each">Elapsed time divided by requests.</param>
/// <param name="Half">How long half of the requests took at most.</param>
/// <param name="Processor">Processor time of this process, clients included, for each request.</param>
/// <param name="Allocated">Bytes that this process allocated for each request, clients included.</param>
internal sealed record Load(TimeSpan Each, TimeSpan Half, TimeSpan Processor, double Allocated)
{
    /// <summary>Sends for some time.</summary>
    /// <param name="clients">How many send at once.</param>
    /// <param name="duration">How long.</param>
    /// <param name="send">Sends the request of that number and reads its answer.</param>
    public static async Task<Load> Of(int clients, TimeSpan duration, Func<Task> send)
    {
        GC.Collect();
        var times = new ConcurrentBag<TimeSpan>();
        var (allocated, processor, began) = (GC.GetTotalAllocatedBytes(), Environment.CpuUsage.TotalTime, Clock.GetTimestamp());
        await Task.WhenAll(Enumerable.Range(0, clients).Select(_ => Task.Run(async () =>
        {
            while (Clock.GetElapsedTime(began) < duration)
            {
                var sent = Clock.GetTimestamp();
                await send();
                times.Add(Clock.GetElapsedTime(sent));
            }
        })));
        var elapsed = Clock.GetElapsedTime(began);
        var used = Environment.CpuUsage.TotalTime - processor;
        var bytes = GC.GetTotalAllocatedBytes() - allocated;
        var sorted = times.Order().ToList();
        return new Load(elapsed / sorted.Count, sorted[sorted.Count / 2], used / sorted.Count, (double)bytes / sorted.Count);
    }
}
