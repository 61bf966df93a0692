using Inspect.Rules.Judging;

namespace Inspect.Rules.Replaying;

/// <summary>What judging one inspection again gives.</summary>
/// <param name="Number">The inspection.</param>
public sealed record Replayed(string Number)
{
    /// <summary>Why it could not be judged again; absent when it was.</summary>
    public string? Refusal { get; init; }

    /// <summary>What comes out differently; absent when nothing does.</summary>
    public ReplayChange? Change { get; init; }

    /// <summary>Whether the verdict comes out as exactly the bytes that were recorded; absent where they were not compared.</summary>
    public bool? HasSameBytes { get; init; }

    /// <summary>Errors inside rules.</summary>
    public IReadOnlyList<RuleError> RuleErrors { get; init; } = [];

    /// <summary>The same under another number.</summary>
    public Replayed Named(string number) => this with { Number = number, Change = Change is null ? null : Change with { Number = number } };
}
