using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Rulesets;

/// <summary>The editions for people: all of them, one rule by rule, and two side by side.</summary>
public static class RulesetPages
{
    public static void MapRulesetPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/rulesets").ExcludeFromDescription();
        pages.MapGet("", (RulesetBook book) => new RazorComponentResult<RulesetsPage>(new { Book = book }))
            .WithName("RulesetsPage").WithSummary("Every edition by body");
        pages.MapGet("{authority}/{date}", Show).WithName("RulesetPage").WithSummary("One edition, rule by rule");
        pages.MapGet("compare", Compare).WithName("CompareRulesetsPage").WithSummary("Two editions side by side");
    }

    private static Results<RazorComponentResult<RulesetPage>, RazorComponentResult<ErrorPage>> Show(
        string authority, string date, RulesetBook book) =>
        book.Editions.TryFind($"{authority}/{date}", out var edition)
            ? new RazorComponentResult<RulesetPage>(new { Edition = edition, Book = book })
            : ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no edition \"{authority}/{date}\".");

    private static Results<RazorComponentResult<ComparePage>, RazorComponentResult<ErrorPage>> Compare(
        RulesetBook book, string? one = null, string? other = null)
    {
        if (!book.Editions.TryFind(one ?? "", out var first) || !book.Editions.TryFind(other ?? "", out var second))
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound,
                "Name two editions to compare, such as one=us-national/2018-08-01 and other=us-national/2020-08-01.");
        }

        return new RazorComponentResult<ComparePage>(new { One = first, Other = second, Rows = EditionComparison.Of(first, second) });
    }
}
