namespace Inspect.Station.CommandLine;

/// <summary>Works on pieces on all processors and hands on what comes of them in the order of the pieces.</summary>
internal static class InOrder
{
    /// <summary>The results in order. Only a few pieces are under way at once, so memory does not grow with their number.</summary>
    /// <param name="pieces">The pieces, taken one after another by the caller's thread.</param>
    /// <param name="work">The work on one; it is done for several at once.</param>
    /// <param name="stop">Ends it between two pieces.</param>
    public static IEnumerable<TMade> Of<TPiece, TMade>(IEnumerable<TPiece> pieces, Func<TPiece, TMade> work, CancellationToken stop)
    {
        var underWay = new Queue<Task<TMade>>();
        var most = 8 * Environment.ProcessorCount;
        foreach (var piece in pieces)
        {
            stop.ThrowIfCancellationRequested();
            underWay.Enqueue(Task.Run(() => work(piece), stop));
            if (underWay.Count == most)
            {
                yield return underWay.Dequeue().GetAwaiter().GetResult();
            }
        }

        while (underWay.TryDequeue(out var next))
        {
            yield return next.GetAwaiter().GetResult();
        }
    }
}
