namespace Inspect.Rules.Rulesets;

/// <summary>What must be true for something to apply: every clause must hold.</summary>
public sealed record Condition(IReadOnlyList<Clause> Clauses);

/// <summary>One question about a sheet.</summary>
public sealed record Clause(Fact Fact, Test Test);

/// <summary>What the answer to a question must be; a closed family.</summary>
public abstract record Test
{
    private Test()
    {
    }

    /// <summary>The fact is true, or is false.</summary>
    public sealed record Is(bool Wanted) : Test;

    /// <summary>The measure or count lies within a limit.</summary>
    public sealed record Within(Limit Limit) : Test;

    /// <summary>The word is one of a list.</summary>
    public sealed record Among(IReadOnlyList<string> Words) : Test;

    /// <summary>The text on the ball is one of a list of names, as people read them.</summary>
    public sealed record Named(IReadOnlyList<BallName> Names) : Test;

    /// <summary>The day lies before a day, or on or after it.</summary>
    public sealed record Dated(DateOnly Day, bool Before) : Test;
}
