namespace Inspect.Station.Record;

/// <summary>What can be decided about an inspection after it was recorded. No decision changes the measurements or the verdict.</summary>
public enum Decision
{
    /// <summary>The director settles the open points in the ball's favour.</summary>
    Accept,

    /// <summary>The ball may be used on a condition, which is open until it is met.</summary>
    Allow,

    /// <summary>The ball is to be measured again, on another instrument: the only appeal against a reading.</summary>
    Remeasure,

    /// <summary>An instrument it was measured with has failed a check since, so the ball is to be measured again.</summary>
    Recall,

    /// <summary>The record was made in error, or is no longer valid.</summary>
    Withdraw,

    /// <summary>The person who recorded it took it back at once.</summary>
    Undo,
}

/// <summary>The words for decisions: in the register and between programs, and for people.</summary>
public static class Decisions
{
    /// <summary>The words of the register and of programs.</summary>
    public static readonly IReadOnlyDictionary<string, Decision> Words = new Dictionary<string, Decision>(StringComparer.Ordinal)
    {
        ["accept"] = Decision.Accept,
        ["allow"] = Decision.Allow,
        ["remeasure"] = Decision.Remeasure,
        ["recall"] = Decision.Recall,
        ["withdraw"] = Decision.Withdraw,
        ["undo"] = Decision.Undo,
    };

    /// <summary>The word of a decision.</summary>
    public static string Word(this Decision decision) => Words.First(pair => pair.Value == decision).Key;

    /// <summary>Whether the ball waits to be measured again.</summary>
    public static bool CallsBack(this Decision decision) => decision is Decision.Remeasure or Decision.Recall;

    /// <summary>Whether the inspection no longer counts for its ball.</summary>
    public static bool IsWithdrawal(this Decision decision) => decision is Decision.Withdraw or Decision.Undo;

    /// <summary>The label of the director's button.</summary>
    public static string Title(this Decision decision) => decision switch
    {
        Decision.Accept => "Accept at discretion",
        Decision.Allow => "Allow on a condition",
        Decision.Remeasure => "Order a second measurement",
        Decision.Recall => "Call back: an instrument failed",
        Decision.Withdraw => "Withdraw the record",
        _ => "Take it back",
    };

    /// <summary>What it means for the ball, as the heading.</summary>
    public static string Standing(this Decision decision) => decision switch
    {
        Decision.Accept => "Accepted: this ball may be used",
        Decision.Allow => "Allowed on a condition",
        Decision.Remeasure or Decision.Recall => "Not to be used: to be measured again",
        _ => "This slip was withdrawn",
    };

    /// <summary>What it means for play, in a sentence.</summary>
    public static string Consequence(this Decision decision) => decision switch
    {
        Decision.Accept => "The ball may be used at this event with this grip; what the rules found stays on the slip.",
        Decision.Allow => "The ball may be used until the condition is due, and stays on the open list until it is measured again.",
        Decision.Remeasure => "The ball may not be used until it has been measured again, on another instrument.",
        Decision.Recall => "The ball may not be used until it has been measured again.",
        _ => "The slip no longer counts; the ball must be measured again before it is used.",
    };
}
