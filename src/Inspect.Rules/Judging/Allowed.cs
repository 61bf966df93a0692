using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Judging;

/// <summary>What a finding allowed: a limit, or a state, a name or a day in words.</summary>
/// <param name="Text">The words as recorded, or for what is no measured limit; absent where they are those of the limit.</param>
/// <param name="Limit">The limit, its values in the base unit of what it measures; absent for what is none of numbers.</param>
public sealed record Allowed(string? Text, Limit? Limit = null)
{
    /// <summary>The limit where it is one of measured values, not of a count.</summary>
    public Limit? Measured => Limit is { } limit && (limit.Least ?? limit.Most)?.Notation is not null ? limit : null;

    /// <summary>The words.</summary>
    public override string ToString() => Text ?? Limit?.ToString() ?? "";

    internal static Allowed? Of(string? text) => text is null ? null : new Allowed(text);

    internal static Allowed? Of(Limit? limit) => limit is null ? null : new Allowed(null, limit);
}
