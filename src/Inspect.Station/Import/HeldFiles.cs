using System.Security.Cryptography;
using Inspect.Station.Access;

namespace Inspect.Station.Import;

/// <summary>A file between the page on which it was chosen and the page on which its entries are added.</summary>
/// <param name="Key">What stands for it in addresses.</param>
/// <param name="Owner">Who chose it; nobody else sees it.</param>
/// <param name="Event">The event or the list of models for which it was chosen.</param>
/// <param name="File">The file.</param>
/// <param name="Since">When it was chosen.</param>
public sealed record HeldFile(string Key, PersonId Owner, string Event, ImportFile File, DateTimeOffset Since)
{
    /// <summary>The sheet that a person chose; null for the first with rows.</summary>
    public int? Sheet { get; init; }

    /// <summary>What a person said of its columns; null before that.</summary>
    public Matching? Matching { get; init; }

    /// <summary>What was done with it, in a sentence; null before that.</summary>
    public string? Done { get; init; }

    /// <summary>Why what was chosen was not done, in a sentence; null when it was.</summary>
    public string? NotDone { get; init; }
}

/// <summary>Holds a file for each director and event, in memory, because it has names of people: for an hour, and a few at a
/// time.</summary>
public sealed class HeldFiles : IDisposable
{
    /// <summary>How long a file is held.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromHours(1);

    // At most 80 MB.
    private const int Most = 4;

    private readonly TimeProvider _time;
    private readonly ITimer _timer;
    private readonly Lock _lock = new();
    private readonly Dictionary<(PersonId Owner, string Event), HeldFile> _held = [];

    public HeldFiles(TimeProvider time)
    {
        _time = time;
        _timer = time.CreateTimer(_ => ForgetOld(), null, Longest / 4, Longest / 4);
    }

    /// <summary>Holds a file in place of the one that its owner had for the same event; where there are too many, the oldest
    /// goes.</summary>
    public HeldFile Hold(PersonId owner, string eventId, ImportFile file)
    {
        ForgetOld();
        var held = new HeldFile(Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(8)), owner, eventId, file, _time.GetUtcNow());
        lock (_lock)
        {
            _held.Remove((owner, eventId));
            while (_held.Count >= Most)
            {
                _held.Remove(_held.MinBy(each => each.Value.Since).Key);
            }

            _held[(owner, eventId)] = held;
        }

        return held;
    }

    /// <summary>The file under a key, for its owner; null when it is not held.</summary>
    public HeldFile? Find(PersonId owner, string eventId, string key)
    {
        ForgetOld();
        lock (_lock)
        {
            return _held.GetValueOrDefault((owner, eventId)) is { } held && held.Key == key ? held : null;
        }
    }

    /// <summary>Puts what was said of a file in place, unless it is not held any more.</summary>
    public void Keep(HeldFile changed)
    {
        lock (_lock)
        {
            if (_held.GetValueOrDefault((changed.Owner, changed.Event))?.Key == changed.Key)
            {
                _held[(changed.Owner, changed.Event)] = changed;
            }
        }
    }

    /// <summary>Forgets a file.</summary>
    public void Forget(HeldFile held)
    {
        lock (_lock)
        {
            if (_held.GetValueOrDefault((held.Owner, held.Event))?.Key == held.Key)
            {
                _held.Remove((held.Owner, held.Event));
            }
        }
    }

    /// <summary>Forgets every file.</summary>
    public void ForgetAll()
    {
        lock (_lock)
        {
            _held.Clear();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _timer.Dispose();

    private void ForgetOld()
    {
        var now = _time.GetUtcNow();
        lock (_lock)
        {
            foreach (var old in _held.Values.Where(held => now - held.Since >= Longest).ToList())
            {
                _held.Remove((old.Owner, old.Event));
            }
        }
    }
}
