using Inspect.Rules.Rulesets;

namespace Inspect.Station.Rulesets;

/// <summary>What a person calls a body's rules and an edition of them, whose ids are for files and programs.</summary>
public static class RulesetWords
{
    /// <summary>A body's rules without their days, such as <c>National rules of
    /// the United States</c>; its id where no edition of it is known.</summary>
    public static string OfBody(this EditionLibrary editions, string authority) =>
        editions.Of(authority) is [.., var latest] ? latest.Title.Split(", from ")[0] : authority;

    /// <summary>An edition's title; its id where the station does not have it, and null for none.</summary>
    public static string? OfEdition(this EditionLibrary editions, string? id) =>
        id is not null && editions.TryFind(id, out var edition) ? edition.Title : id;
}
