using Inspect.Rules.Judging;

namespace Inspect.Rules.Replaying;

/// <summary>What recorded inspections are judged again under; a closed family.</summary>
public abstract record ReplayTarget
{
    private ReplayTarget()
    {
    }

    /// <summary>What is added to the edition this time; what was set at the time of recording is not taken over.</summary>
    public JudgingTerms Terms { get; init; } = JudgingTerms.None;

    /// <summary>Each inspection under the edition it was recorded under.</summary>
    public sealed record OwnEdition : ReplayTarget;

    /// <summary>Each inspection under the highest revision of the edition it
    /// was recorded under; without a revision, under that edition.</summary>
    public sealed record Revised : ReplayTarget;

    /// <summary>Every inspection under one edition, whatever its day of play.</summary>
    public sealed record OneEdition(string Id) : ReplayTarget;

    /// <summary>Every inspection under the edition of one body in force on its day of play.</summary>
    public sealed record EditionsOf(string Authority) : ReplayTarget;
}
