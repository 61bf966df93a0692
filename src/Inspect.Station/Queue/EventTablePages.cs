using System.Globalization;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Queue;

/// <summary>What a director sets for the tables of an event: how many balls an entry may bring, and the wall screen.</summary>
public static class EventTablePages
{
    public static void MapEventTablePages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events/{event}/table").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapGet("", Show).WithName("EventTablePage").WithSummary("What an event sets for its tables");
        pages.MapPost("", Set).WithName("SetEventTable").WithSummary("Sets the cap on balls and what the wall screen shows");
        pages.MapPost("wall", SetWall).WithName("SetWall").WithSummary("Makes a new link to the wall screen, or closes it");
    }

    private static Results<RazorComponentResult<EventTablePage>, RazorComponentResult<ErrorPage>> Show(
        string @event, HttpResponse response, Events events, EventTables tables, PublicAddress address)
    {
        // The link is the secret: no cache may keep the page.
        response.Headers.CacheControl = "no-store";
        return events.Find(@event) is { } held
            ? new RazorComponentResult<EventTablePage>(new { Event = held, Terms = tables.Of(held.Id), address.Root })
            : NoEvent(@event);
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<EventTablePage>, RazorComponentResult<ErrorPage>>> Set(
        string @event, IFormCollection form, Events events, EventTables tables, PublicAddress address, WriteGate gate)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var typed = form["mostBalls"].ToString().Trim();
        var isNumber = int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out var most) && most is >= 1 and <= 99;
        if (typed.Length > 0 && !isNumber)
        {
            var faults = new Faults();
            faults.Add("mostBalls", $"\"{typed}\" is not a number of balls; enter 1 to 99, or leave it empty for no limit.");
            return new RazorComponentResult<EventTablePage>(
                new { Event = held, Terms = tables.Of(held.Id), address.Root, Typed = typed, Faults = faults })
            {
                StatusCode = StatusCodes.Status422UnprocessableEntity,
            };
        }

        await gate.Run(write => EventTables.Set(write, held.Id, isNumber ? most : null, form["names"] == "shown"));
        return TypedResults.LocalRedirect($"/events/{held.Id}/table");
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<ErrorPage>>> SetWall(
        string @event, IFormCollection form, Events events, WriteGate gate)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        await gate.Run(write => EventTables.SetWall(write, held.Id, isOpen: form["act"] == "open"));
        return TypedResults.LocalRedirect($"/events/{held.Id}/table#wall");
    }

    private static RazorComponentResult<ErrorPage> NoEvent(string id) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{id}\" on this station.");
}
