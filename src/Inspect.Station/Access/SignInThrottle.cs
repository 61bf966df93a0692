using System.Collections.Concurrent;

namespace Inspect.Station.Access;

/// <summary>Slows down guessing of passcodes: after five failures, each further try from that address with that name has to wait.</summary>
/// <remarks>
/// Counted for name and address together, so that a guesser at one table does not lock out the inspector at another. The limit by address
/// alone is applied before this one. Kept in memory: a restart clears it.
/// </remarks>
public sealed class SignInThrottle(TimeProvider time)
{
    private const int FreeTries = 5;
    private const int MostKept = 10_000;
    private static readonly TimeSpan FirstWait = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan LongestWait = TimeSpan.FromMinutes(15);

    private readonly ConcurrentDictionary<(string NameKey, string Address), Tries> _tries = [];

    /// <summary>
    /// Counts a try as failed until <see cref="Succeeded"/> says otherwise, so that guesses sent at the same moment count too.
    /// False while the caller has to wait.
    /// </summary>
    public bool TryBegin(string nameKey, string address, out TimeSpan wait)
    {
        var now = Now;
        if (_tries.Count >= MostKept)
        {
            Forget(now);
        }

        var waiting = TimeSpan.Zero;
        _tries.AddOrUpdate(
            (nameKey, address),
            _ =>
            {
                waiting = TimeSpan.Zero;
                return new Tries(1, now);
            },
            (_, before) =>
            {
                waiting = before.Last + WaitAfter(before.Count) - now;
                var count = now - before.Last > LongestWait ? 0 : before.Count;
                return waiting > TimeSpan.Zero ? before : new Tries(count + 1, now);
            });
        wait = waiting > TimeSpan.Zero ? waiting : TimeSpan.Zero;
        return wait == TimeSpan.Zero;
    }

    /// <summary>How many names with their addresses are kept; ten thousand at most.</summary>
    internal int Kept => _tries.Count;

    /// <summary>Forgets the failures: the passcode was right.</summary>
    public void Succeeded(string nameKey, string address) => _tries.TryRemove((nameKey, address), out _);

    private static TimeSpan WaitAfter(int failures)
    {
        if (failures < FreeTries)
        {
            return TimeSpan.Zero;
        }

        var doublings = Math.Min(failures - FreeTries, 10);
        var wait = FirstWait * (1 << doublings);
        return wait < LongestWait ? wait : LongestWait;
    }

    // A clock that is set does not change it.
    private TimeSpan Now => time.GetElapsedTime(0);

    private void Forget(TimeSpan now)
    {
        foreach (var (key, tries) in _tries)
        {
            if (now - tries.Last > LongestWait)
            {
                _tries.TryRemove(key, out _);
            }
        }

        if (_tries.Count >= MostKept)
        {
            foreach (var (key, _) in _tries.OrderBy(each => each.Value.Last).Take(MostKept / 10))
            {
                _tries.TryRemove(key, out _);
            }
        }
    }

    private readonly record struct Tries(int Count, TimeSpan Last);
}
