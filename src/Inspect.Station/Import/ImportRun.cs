using Inspect.Station.Prepare;

namespace Inspect.Station.Import;

/// <summary>A list while it is entered: how far it is, and whether somebody wants it stopped.</summary>
/// <param name="held">The list.</param>
/// <param name="into">The event.</param>
/// <param name="rows">How many rows were read.</param>
/// <param name="chosen">What is done of it.</param>
/// <param name="by">Who does it.</param>
public sealed class ImportRun(HeldFile held, Event into, int rows, ImportChoices chosen, ChangedBy by)
{
    private volatile int _written;
    private volatile bool _isToStop;

    /// <summary>The list.</summary>
    public HeldFile Held { get; } = held;

    /// <summary>The event.</summary>
    public Event Into { get; } = into;

    /// <summary>How many rows were read.</summary>
    public int Rows { get; } = rows;

    /// <summary>What is done of it.</summary>
    public ImportChoices Chosen { get; } = chosen;

    /// <summary>Who does it.</summary>
    public ChangedBy By { get; } = by;

    /// <summary>How many entries are written; they do not count before all are.</summary>
    public int Written { get => _written; internal set => _written = value; }

    /// <summary>Whether somebody wants it stopped.</summary>
    public bool IsToStop => _isToStop;

    /// <summary>Ends when it is done, or when nothing of it is there any more.</summary>
    public Task Ended { get; internal set; } = Task.CompletedTask;

    /// <summary>Stops it before its next turn at the gate. One that is done stays done.</summary>
    public void Stop() => _isToStop = true;
}
