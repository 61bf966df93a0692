using Inspect.Station.Access;

namespace Inspect.Station.Desk;

/// <summary>A filter that a typed text may have meant: its words, and the search that it leads to.</summary>
public sealed record FindHint(string Words, string Query);

/// <summary>What was typed into the one search field beside a name or a number: an event, an inspector, a verdict, a rule, an instrument.</summary>
/// <remarks>These fit too many inspections to be mixed into what was found, so each is offered as a filter, one press away.</remarks>
public static class FindHints
{
    private const int Fewest = 3;
    private const int Most = 6;

    /// <summary>What may have been meant, a few, without what is set already.</summary>
    /// <param name="asked">The search.</param>
    /// <param name="choices">What the filters can be set to.</param>
    /// <param name="hasModels">Whether the text is written on some ball as maker or model.</param>
    public static IReadOnlyList<FindHint> Of(FindAsked asked, DeskChoices choices, bool hasModels)
    {
        if (asked[FindFilters.Search] is not { } typed || NameFold.Words(typed).Sum(word => word.Length) < Fewest)
        {
            return [];
        }

        var meant = FindFilters.All.Where(filter => filter.Offer is not null && asked[filter] is null)
            .SelectMany(filter => filter.Choices!(choices).Where(choice => NameFold.Matches(typed, choice.Said))
                .Select(choice => Hint(filter, choice.Value, filter.Offer!(choice))))
            .Take(Most);
        return hasModels && asked[FindFilters.Model] is null
            ? [Hint(FindFilters.Model, typed, $"maker or model “{typed}”"), .. meant]
            : [.. meant];

        FindHint Hint(FindFilter filter, string value, string words) =>
            new(words, asked.Without(FindFilters.Search.Name, FindPaging.Cursor).With(filter, value).Query);
    }
}
