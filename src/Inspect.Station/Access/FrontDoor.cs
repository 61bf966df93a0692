namespace Inspect.Station.Access;

/// <summary>Checks a name and a passcode, for pages and for programs.</summary>
public sealed partial class FrontDoor(SignIns signIns, SignInThrottle throttle, ILogger<FrontDoor> log)
{
    /// <summary>The answer to any wrong pair. It is always the same, so that nobody learns which names exist.</summary>
    public const string WrongSentence = "The name or the passcode is wrong. Check both, and the capital letters.";

    /// <summary>Checks a pair. After too many failures the pair is not checked, and the caller has to wait.</summary>
    public (SignedIn? SignedIn, TimeSpan Wait) Knock(string name, string passcode, string address)
    {
        // A name that nobody can have is no name to keep: all of them count as one.
        var isPossible = SignInRules.IsPossible(name);
        var key = isPossible ? SignInRules.Key(name) : "";
        if (!throttle.TryBegin(key, address, out var wait))
        {
            Throttled(address, wait.TotalSeconds);
            return (null, wait);
        }

        var signedIn = isPossible && passcode.Length <= SignInRules.LongestPasscode ? signIns.Check(name, passcode) : null;
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

    [LoggerMessage(Level = LogLevel.Information, Message = "A sign-in from {Address} was refused: wrong name or passcode")]
    private partial void Refused(string address);

    [LoggerMessage(Level = LogLevel.Warning, Message = "A sign-in from {Address} was refused unchecked: "
        + "it has to wait {Seconds:0} s after too many failures")]
    private partial void Throttled(string address, double seconds);

    /// <summary>The answer that says how long to wait.</summary>
    public static string WaitSentence(TimeSpan wait) => wait.TotalSeconds <= 60
        ? $"Too many wrong tries: wait {Math.Ceiling(wait.TotalSeconds):0} seconds and try again."
        : $"Too many wrong tries: wait {Math.Ceiling(wait.TotalMinutes):0} minutes and try again.";
}
