using System.Globalization;

namespace Inspect.Rules.Rulesets;

/// <summary>One authority's complete ball rules from one day on; published once, never changed.</summary>
public sealed record Edition
{
    /// <summary>The body whose rules these are, such as <c>us-national</c>.</summary>
    public required string Authority { get; init; }

    /// <summary>The first day of play it is in force; it lasts until the authority's next begins.</summary>
    public required DateOnly From { get; init; }

    /// <summary>Its last day, where it ends without a successor.</summary>
    public DateOnly? Until { get; init; }

    /// <summary>1 as first published; 2 and more correct an earlier one of the same body and day.</summary>
    public int Revision { get; init; } = 1;

    /// <summary>The id of the edition that this revision corrects; null for one as first published.</summary>
    public string? Corrects { get; init; }

    /// <summary>What it corrects, one plain sentence for each correction.</summary>
    public IReadOnlyList<string> Corrections { get; init; } = [];

    /// <summary>Its name on a slip.</summary>
    public required string Title { get; init; }

    /// <summary>The edition whose text this one follows, where a body takes over another's.</summary>
    public string? Follows { get; init; }

    /// <summary>Its own description in one or two sentences.</summary>
    public string? About { get; init; }

    /// <summary>The documents it was read in, by the short name its rules use.</summary>
    public required IReadOnlyDictionary<string, Reference> Sources { get; init; }

    /// <summary>What makes a ball a house ball under this edition.</summary>
    public Condition? HouseBall { get; init; }

    /// <summary>Its rules, in the order in which a verdict shows them.</summary>
    public required IReadOnlyList<Rule> Rules { get; init; }

    /// <summary>Its notes, which are advice and not rules.</summary>
    public IReadOnlyList<AdviceNote> Notes { get; init; } = [];

    /// <summary>SHA-256 of the file's bytes, in lower-case hexadecimal.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Authority and first day, as in <c>us-national/2020-08-01</c>; a
    /// revision has its number after them, <c>us-national/2020-08-01.2</c>.</summary>
    public string Id => string.Create(CultureInfo.InvariantCulture, $"{Authority}/{From:yyyy-MM-dd}{(Revision > 1 ? $".{Revision}" : "")}");

    /// <summary>The ids of its rules, each once, in its order.</summary>
    public IEnumerable<string> RuleIds => Rules.Select(rule => rule.Id).Distinct(StringComparer.Ordinal);
}
