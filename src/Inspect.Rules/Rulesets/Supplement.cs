namespace Inspect.Rules.Rulesets;

/// <summary>What an event adds on top of an edition: it tightens the
/// edition, and decides what the edition leaves to the director.</summary>
public sealed record Supplement
{
    /// <summary>Its short name, such as <c>lantern-open</c>.</summary>
    public required string Id { get; init; }

    /// <summary>The day of this version.</summary>
    public required DateOnly Version { get; init; }

    /// <summary>Its name on a slip.</summary>
    public required string Title { get; init; }

    /// <summary>The body whose editions it adds to.</summary>
    public required string Authority { get; init; }

    /// <summary>Its own description in one or two sentences.</summary>
    public string? About { get; init; }

    /// <summary>The documents it was read in, by the short name its rules use.</summary>
    public required IReadOnlyDictionary<string, Reference> Sources { get; init; }

    /// <summary>What makes a ball a house ball for its own rules; absent means what the edition says.</summary>
    public Condition? HouseBall { get; init; }

    /// <summary>Its rules; a verdict shows them after the edition's.</summary>
    public required IReadOnlyList<Rule> Rules { get; init; }

    /// <summary>What it decides where the edition leaves it to the director.</summary>
    public IReadOnlyList<Decision> Decides { get; init; } = [];

    /// <summary>SHA-256 of the file's bytes, in lower-case hexadecimal.</summary>
    public required string Sha256 { get; init; }

    /// <summary>The ids of its rules, each once, in its order.</summary>
    public IEnumerable<string> RuleIds => Rules.Select(rule => rule.Id).Distinct(StringComparer.Ordinal);
}

/// <summary>One thing an edition leaves to the director, decided once for the event.</summary>
/// <param name="Rule">The rule's id.</param>
/// <param name="Discretion">What is decided.</param>
/// <param name="Reference">Where the event says so.</param>
public sealed record Decision(string Rule, Discretion Discretion, Reference Reference);

/// <summary>How a supplement decides what is left to the director.</summary>
public enum Discretion
{
    /// <summary>The ball may be used.</summary>
    Allow,

    /// <summary>The ball may not be used.</summary>
    Bar,
}
