using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Queue;

/// <summary>The screen on the wall: for people who are signed in, and for anyone with the director's link.</summary>
public static class WallPages
{
    public static void MapWallPages(this IEndpointRouteBuilder app)
    {
        app.MapGet("/events/{event}/wall", Show).RequireAuthorization(Policies.Inspector).ExcludeFromDescription()
            .WithName("WallPage").WithSummary("The queue for a large display");
        app.MapGet("/events/{event}/wall/{word}", ShowByLink).RequireRateLimiting(RateLimits.Scan).ExcludeFromDescription()
            .WithName("WallByLink").WithSummary("The queue for a large display, by the director's link and without a sign-in");
    }

    private static Results<RazorComponentResult<WallPage>, RazorComponentResult<ErrorPage>> Show(
        string @event, HttpResponse response, Events events, EventTables tables, BowlerQueue queue) =>
        events.Find(@event) is { } held
            ? Page(held, tables.Of(held.Id), queue, response)
            : ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.");

    private static Results<RazorComponentResult<WallPage>, RazorComponentResult<ErrorPage>> ShowByLink(
        string @event, string word, HttpResponse response, Events events, EventTables tables, BowlerQueue queue)
    {
        var held = events.Find(@event);
        var terms = held is null ? TableTerms.None : tables.Of(held.Id);
        return held is not null && terms.Opens(word)
            ? Page(held, terms, queue, response)
            : ErrorAnswers.Page(
                StatusCodes.Status404NotFound, "This wall screen link no longer works. Ask the tournament director for the new one.");
    }

    private static RazorComponentResult<WallPage> Page(Event held, TableTerms terms, BowlerQueue queue, HttpResponse response)
    {
        response.Headers.CacheControl = "no-store";
        return new(new { Event = held, Queue = queue.Of(held), terms.ShowsNames });
    }
}
