using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Judging;

/// <summary>What is allowed, as a finding shows it: a limit, or a state, a name or a day in words.</summary>
/// <param name="Text">The words as recorded, or those of something that is not a limit; absent where the limit has the words.</param>
/// <param name="Limit">The limit, its values in the base unit of what it measures; absent where it is not a number.</param>
public sealed record Allowed(string? Text, Limit? Limit = null)
{
    /// <summary>The limit of a measured value; null for a count.</summary>
    public Limit? Measured => Limit is { } limit && (limit.Least ?? limit.Most)?.Notation is not null ? limit : null;

    /// <summary>The words.</summary>
    public override string ToString() => Text ?? Limit?.ToString() ?? "";

    internal static Allowed? Of(string? text) => text is null ? null : new Allowed(text);

    internal static Allowed? Of(Limit? limit) => limit is null ? null : new Allowed(null, limit);
}
