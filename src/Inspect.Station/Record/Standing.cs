using Inspect.Rules.Judging;

namespace Inspect.Station.Record;

/// <summary>Whether a ball may be used on the strength of an inspection as it stands now.</summary>
public enum Use
{
    /// <summary>It passed, or what was open was settled in its favour.</summary>
    Yes,

    /// <summary>A director allowed it until a condition is met.</summary>
    OnCondition,

    /// <summary>It may not.</summary>
    No,
}

/// <summary>Whether a recorded inspection still speaks for its ball, and what it comes to with what was ruled since.</summary>
public static class Standing
{
    public const string Stands = "stands";
    public const string Superseded = "superseded";
    public const string Withdrawn = "withdrawn";
    public const string Ruled = "ruled";

    /// <summary>The word for where an inspection stands.</summary>
    public static string WordOf(FoundInspection found) => WordOf(found.IsSuperseded, found.Ruling?.Decision);

    /// <summary>The word for where an inspection stands, by what came after it: whether it was replaced, and the latest ruling.</summary>
    public static string WordOf(bool isSuperseded, Decision? decision) => (isSuperseded, decision) switch
    {
        (true, _) => Superseded,
        (_, Decision.Withdraw or Decision.Undo) => Withdrawn,
        (_, not null) => Ruled,
        _ => Stands,
    };

    /// <summary>Whether its ball may be used.</summary>
    public static Use UseOf(FoundInspection found) => found switch
    {
        { IsSuperseded: true } => Use.No,
        { Ruling.Decision: Decision.Accept } => Use.Yes,
        { Ruling.Decision: Decision.Allow } => Use.OnCondition,
        { Ruling: not null } => Use.No,
        _ => found.Inspection.Verdict.Outcome == Outcome.Pass ? Use.Yes : Use.No,
    };

    /// <summary>Where an inspection stands, in a few words for a list.</summary>
    public static string InAList(string? supersededBy, Decision? decision) => decision switch
    {
        _ when supersededBy is not null => $"replaced by {supersededBy}",
        Decision.Accept => "accepted by ruling",
        Decision.Allow => "allowed on a condition",
        Decision.Remeasure or Decision.Recall => "to be measured again",
        Decision.Withdraw => "withdrawn",
        Decision.Undo => "taken back",
        _ => "stands",
    };
}
