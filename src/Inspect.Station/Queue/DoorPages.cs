using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Queue;

/// <summary>The door: bowlers are marked in by number, name or scan.</summary>
public static class DoorPages
{
    public static void MapDoorPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events/{event}/door").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        pages.MapGet("", Show).WithName("DoorPage").WithSummary("The field that marks a bowler in");
        pages.MapPost("", MarkIn).WithName("MarkIn").WithSummary("Marks a bowler in, or lists the bowlers who may be meant");
    }

    private static Results<RazorComponentResult<DoorPage>, RazorComponentResult<ErrorPage>> Show(
        string @event, Events events, BowlerQueue queue, string? entry = null) =>
        events.Find(@event) is { } held
            ? new RazorComponentResult<DoorPage>(
                new { Event = held, Queue = queue.Of(held), Marked = entry is null ? null : events.FindEntry(held.Id, entry) })
            : ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.");

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<DoorPage>, RazorComponentResult<ErrorPage>>> MarkIn(
        string @event, IFormCollection form, Events events, BowlerSearch search, BowlerQueue queue, Calls calls)
    {
        if (events.Find(@event) is not { } held)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.");
        }

        var typed = form["bowler"].ToString();
        var found = search.Find(held, typed);
        if (found is { IsSure: true, Matches: [{ Refusal: { } withdrawn }] })
        {
            found = new FoundBowlers([], false, withdrawn);
        }
        else if (found is { IsSure: true, Matches: [var only] })
        {
            await calls.MarkIn(held, only.Number);
            return TypedResults.LocalRedirect($"/events/{held.Id}/door?entry={Uri.EscapeDataString(only.Number)}");
        }

        return new RazorComponentResult<DoorPage>(new
        {
            Event = held,
            Queue = queue.Of(held),
            Typed = typed,
            Found = typed.Trim().Length == 0 ? found with { Sentence = "Type an entry number or a name, or scan an entry card." } : found,
        })
        { StatusCode = StatusCodes.Status422UnprocessableEntity };
    }
}
