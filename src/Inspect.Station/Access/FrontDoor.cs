namespace Inspect.Station.Access;

/// <summary>The one place where a name and a passcode are tried, for pages and programs alike.</summary>
public sealed partial class FrontDoor(SignIns signIns, SignInThrottle throttle, ILogger<FrontDoor> log)
{
    /// <summary>What is said about any pair that does not fit, so that nobody learns which names exist.</summary>
    public const string WrongSentence = "The name or the passcode is wrong. Check both, and the capital letters.";

    /// <summary>Tries a pair. After too many failures it is not even looked at, and there is time to wait.</summary>
    public (SignedIn? SignedIn, TimeSpan Wait) Knock(string name, string passcode, string address)
    {
        var key = SignInRules.Key(name);
        if (!throttle.TryBegin(key, address, out var wait))
        {
            Throttled(address, wait.TotalSeconds);
            return (null, wait);
        }

        var signedIn = passcode.Length <= SignInRules.LongestPasscode ? signIns.Check(name, passcode) : null;
        if (signedIn is not null)
        {
            throttle.Succeeded(key, address);
        }
        else
        {
            Refused(address);
        }

        return (signedIn, TimeSpan.Zero);
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "A sign-in from {Address} was refused: name and passcode do not go together")]
    private partial void Refused(string address);

    [LoggerMessage(Level = LogLevel.Warning, Message = "A sign-in from {Address} was not looked at: it has {Seconds:0} s to wait after too many failures")]
    private partial void Throttled(string address, double seconds);

    /// <summary>How long to wait, in words.</summary>
    public static string WaitSentence(TimeSpan wait) => wait.TotalSeconds <= 60
        ? $"Too many wrong tries: wait {Math.Ceiling(wait.TotalSeconds):0} seconds and try again."
        : $"Too many wrong tries: wait {Math.Ceiling(wait.TotalMinutes):0} minutes and try again.";
}
