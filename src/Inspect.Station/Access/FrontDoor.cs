namespace Inspect.Station.Access;

/// <summary>The one place where a name and a passcode are tried, for pages and programs alike.</summary>
public sealed class FrontDoor(SignIns signIns, SignInThrottle throttle)
{
    /// <summary>What is said about any pair that does not fit, so that nobody learns which names exist.</summary>
    public const string WrongSentence = "This name and this passcode do not go together: check both, also the case of the letters.";

    /// <summary>Tries a pair. After too many failures it is not even looked at, and there is time to wait.</summary>
    public (SignedIn? SignedIn, TimeSpan Wait) Knock(string name, string passcode, string address)
    {
        var key = SignInRules.Key(name);
        if (!throttle.TryBegin(key, address, out var wait))
        {
            return (null, wait);
        }

        var signedIn = passcode.Length <= SignInRules.LongestPasscode ? signIns.Check(name, passcode) : null;
        if (signedIn is not null)
        {
            throttle.Succeeded(key, address);
        }

        return (signedIn, TimeSpan.Zero);
    }

    /// <summary>How long to wait, in words.</summary>
    public static string WaitSentence(TimeSpan wait) => wait.TotalSeconds <= 60
        ? $"Too many wrong tries: wait {Math.Ceiling(wait.TotalSeconds):0} seconds and try again."
        : $"Too many wrong tries: wait {Math.Ceiling(wait.TotalMinutes):0} minutes and try again.";
}
