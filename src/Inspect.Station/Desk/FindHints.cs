using Inspect.Station.Access;

namespace Inspect.Station.Desk;

/// <summary>A filter that a typed text may mean: its words, and the search that it leads to.</summary>
public sealed record FindHint(string Words, string Query);

/// <summary>Offers filters for a text in the search field: an event, an inspector, a verdict, a rule, an instrument, a maker or
/// model.</summary>
/// <remarks>Most fit too many inspections to be listed with the results, so each is offered as a filter.</remarks>
public static class FindHints
{
    private const int Fewest = 3;
    private const int Most = 6;

    /// <summary>The few filters that may be meant, without those already set.</summary>
    /// <param name="asked">The search.</param>
    /// <param name="choices">What the filters can be set to.</param>
    /// <param name="hasModels">Whether the text is the maker or model of a recorded ball, and something else too.</param>
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
