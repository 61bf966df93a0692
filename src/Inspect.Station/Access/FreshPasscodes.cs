using System.Collections.Concurrent;
using System.Security.Cryptography;

namespace Inspect.Station.Access;

/// <summary>A new passcode and the person it is for.</summary>
public sealed record FreshPasscode(string Name, string SignInName, string Passcode);

/// <summary>New passcodes. Each is kept in memory only, until the director who asked for it has seen it once.</summary>
public sealed class FreshPasscodes(TimeProvider time)
{
    private const string Alphabet = "23456789abcdefghjkmnpqrstvwxyz";
    private static readonly TimeSpan Lifetime = TimeSpan.FromMinutes(10);

    private readonly ConcurrentDictionary<string, (PersonId Director, FreshPasscode Fresh, long Made)> _kept = [];

    /// <summary>A random passcode: three groups of four characters without look-alikes, about 59 bits.</summary>
    public static string MakeUp() => string.Join('-', Enumerable.Range(0, 3).Select(_ => RandomNumberGenerator.GetString(Alphabet, 4)));

    /// <summary>Keeps a passcode for a director. Returns the word that shows it to that director.</summary>
    public string Keep(PersonId director, FreshPasscode fresh)
    {
        foreach (var (word, kept) in _kept)
        {
            if (time.GetElapsedTime(kept.Made) > Lifetime)
            {
                _kept.TryRemove(word, out _);
            }
        }

        var key = RandomNumberGenerator.GetHexString(32, lowercase: true);
        _kept[key] = (director, fresh, time.GetTimestamp());
        return key;
    }

    /// <summary>Returns a passcode to the director it was made for, and forgets it; null when the word is unknown or was used.</summary>
    public FreshPasscode? Take(PersonId director, string word) =>
        _kept.TryGetValue(word, out var kept) && kept.Director == director && _kept.TryRemove(word, out kept)
            && time.GetElapsedTime(kept.Made) <= Lifetime
            ? kept.Fresh
            : null;
}
