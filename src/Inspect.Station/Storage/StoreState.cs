using System.Collections.Concurrent;

namespace Inspect.Station.Storage;

/// <summary>What is known of the soundness of the store since the start; the desk and <c>/health</c> show it.</summary>
public sealed class StoreState
{
    // A store of which this many entries are damaged is restored and not looked at one by one.
    private const int MostFaults = 100;

    private readonly ConcurrentDictionary<string, byte> _faults = new(StringComparer.Ordinal);

    /// <summary>Everything found damaged, a sentence each.</summary>
    public IReadOnlyList<string> Faults => [.. _faults.Keys.Order(StringComparer.Ordinal)];

    /// <summary>What a director should know and what keeps nothing from being recorded: accepted losses, a clock that was behind.</summary>
    public IReadOnlyList<string> Notices { get; internal set; } = [];

    /// <summary>How far the check of every entry is, in a sentence.</summary>
    public string Check { get; internal set; } = "The register was not checked yet.";

    /// <summary>Keeps a fault that somebody met; any other error is none.</summary>
    public void Meet(Exception error)
    {
        if (error is DamagedEntryException damaged)
        {
            Add(damaged.Message);
        }
    }

    /// <summary>Keeps what a check found. What was found before and is sound now goes.</summary>
    internal void Found(IReadOnlyCollection<string> faults)
    {
        foreach (var gone in _faults.Keys.Except(faults, StringComparer.Ordinal))
        {
            _faults.TryRemove(gone, out _);
        }

        foreach (var fault in faults)
        {
            Add(fault);
        }
    }

    internal void Add(string fault)
    {
        if (_faults.Count < MostFaults)
        {
            _faults.TryAdd(fault, 0);
        }
    }
}
