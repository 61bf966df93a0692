namespace Inspect.Station.Desk.Charts;

/// <summary>An edition or a supplement as a verdict names it.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Version">A supplement's version.</param>
/// <param name="Sha256">The hash of its bytes, lower-case hexadecimal.</param>
public sealed record RulesMark(string Id, string? Version, string Sha256);

/// <summary>Which rules a verdict was reached under.</summary>
public sealed record JudgedUnder
{
    /// <summary>No edition in force, nothing set.</summary>
    public static JudgedUnder Nothing { get; } = new();

    public RulesMark? Edition { get; init; }

    public IReadOnlyList<RulesMark> Supplements { get; init; } = [];

    /// <summary>How a reading near a limit was decided, by its word; nothing for simple acceptance.</summary>
    public string? Decision { get; init; }

    /// <summary>How many standard uncertainties wide a guard band was.</summary>
    public string? GuardFactor { get; init; }

    public bool Equals(JudgedUnder? other) =>
        other is not null && Edition == other.Edition && Supplements.SequenceEqual(other.Supplements) && Decision == other.Decision && GuardFactor == other.GuardFactor;

    public override int GetHashCode() => HashCode.Combine(Edition, Supplements.Count, Decision, GuardFactor);
}
