namespace Inspect.Ball;

/// <summary>Counts the work of one computation and lets its caller stop it.</summary>
/// <param name="stop">Ends the computation with <see cref="OperationCanceledException"/> when nobody waits for it any more.</param>
public sealed class Effort(CancellationToken stop = default)
{
    /// <summary>The lines along holes that were summed so far: what a computation costs on any machine.</summary>
    public long Lines { get; private set; }

    /// <exception cref="OperationCanceledException">The caller has left.</exception>
    public void ThrowIfStopped() => stop.ThrowIfCancellationRequested();

    internal void Count(int lines) => Lines += lines;
}
