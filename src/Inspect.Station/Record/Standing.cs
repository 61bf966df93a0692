using Inspect.Rules.Judging;

namespace Inspect.Station.Record;

/// <summary>Whether a ball may be used by the current standing of an inspection.</summary>
public enum Use
{
    /// <summary>It passed, or its open points were settled in its favour.</summary>
    Yes,

    /// <summary>A director allowed it until a condition is met.</summary>
    OnCondition,

    /// <summary>It may not be used.</summary>
    No,
}

/// <summary>The standing of a recorded inspection: whether it still counts for its ball, and what later rulings make of it.</summary>
public static class Standing
{
    public const string Stands = "stands";
    public const string Superseded = "superseded";
    public const string Withdrawn = "withdrawn";
    public const string Ruled = "ruled";

    /// <summary>The word for the standing of an inspection.</summary>
    public static string WordOf(FoundInspection found) => WordOf(found.IsSuperseded, found.Ruling?.Decision);

    /// <summary>The word for the standing of an inspection, from whether it was replaced and the latest ruling.</summary>
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

    /// <summary>The standing of an inspection, in a few words for a list.</summary>
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
