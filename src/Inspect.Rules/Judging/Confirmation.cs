using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>A limit known from memory only, or not found, that the director has confirmed from a document for the event.</summary>
/// <param name="Rule">The rule's id.</param>
/// <param name="Limit">The limit in the words of the finding that held; absent where the edition has none.</param>
/// <param name="By">Who confirmed it, by an opaque id.</param>
/// <param name="On">The day of the confirmation.</param>
/// <param name="Document">The document it was read in.</param>
/// <param name="Given">The limit read there, where the edition has none.</param>
public sealed record Confirmation(string Rule, string? Limit, string By, DateOnly On, string Document, GivenLimit? Given = null)
{
    /// <summary>The confirmation as a finding shows it.</summary>
    public ConfirmedBy Mark => new(By, On, Document);
}

/// <summary>A limit that a director read in a document, because the edition has none.</summary>
/// <param name="Quantity">What it limits; a rule on another quantity does not use it.</param>
/// <param name="Limit">The limit.</param>
public sealed record GivenLimit(RuleQuantity Quantity, Limit Limit);

/// <summary>Who confirmed the limit that a finding is built on, when, and from which document.</summary>
public sealed record ConfirmedBy(string By, DateOnly On, string Document);
