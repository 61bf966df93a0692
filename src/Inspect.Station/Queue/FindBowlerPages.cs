using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Queue;

/// <summary>Leads from a number, a name or a scan to the bowler's entry.</summary>
public static class FindBowlerPages
{
    public static void MapFindBowlerPages(this IEndpointRouteBuilder app) => app.MapGet("/events/{event}/find", Find)
        .RequireAuthorization(Policies.Inspector).ExcludeFromDescription()
        .WithName("FindBowler").WithSummary("Leads to the entry that a number, a name or a scan means, or lists the possible ones");

    private static Results<RedirectHttpResult, RazorComponentResult<FindBowlerPage>, RazorComponentResult<ErrorPage>> Find(
        string @event, Events events, BowlerSearch search, string? bowler = null)
    {
        if (events.Find(@event) is not { } held)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.");
        }

        var found = search.Find(held, bowler);
        return found is { IsSure: true, Matches: [var only] }
            ? TypedResults.LocalRedirect($"/events/{held.Id}/entries/{Uri.EscapeDataString(only.Number)}")
            : new RazorComponentResult<FindBowlerPage>(new { Event = held, Typed = bowler, Found = found });
    }
}
