namespace Inspect.Advice;

/// <summary>The result of one attempt at a cure: a remedy, or a dead end.</summary>
internal readonly record struct Way(Remedy? Out, DeadEnd? End)
{
    public static implicit operator Way(Remedy remedy) => new(remedy, null);

    public static implicit operator Way(DeadEnd end) => new(null, end);
}
