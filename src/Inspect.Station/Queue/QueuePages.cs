using System.Globalization;
using System.Security.Claims;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

using Answer = Microsoft.AspNetCore.Http.HttpResults.Results<
    Microsoft.AspNetCore.Http.HttpResults.RedirectHttpResult,
    Microsoft.AspNetCore.Http.HttpResults.RazorComponentResult<Inspect.Station.Queue.QueuePage>,
    Microsoft.AspNetCore.Http.HttpResults.RazorComponentResult<Inspect.Station.Web.ErrorPage>>;

namespace Inspect.Station.Queue;

/// <summary>The queue for inspectors: open a table, call the next bowler, note who came and who left.</summary>
public static class QueuePages
{
    private const int LongestName = 20;

    public static void MapQueuePages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events/{event}/queue").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        pages.MapGet("", Show).WithName("QueuePage").WithSummary("Who waits, who is at which table, and how fast it goes");
        pages.MapPost("table", OpenTable).WithName("OpenTable").WithSummary("Opens a table for the person signed in, or renames it");
        pages.MapPost("table/close", CloseTable).WithName("CloseTable").WithSummary("Closes a table");
        pages.MapPost("next", Next).WithName("CallNext").WithSummary("Finishes with the bowler at the table and calls the next");
        pages.MapPost("take", Take).WithName("CallOutOfOrder").WithSummary("Calls one bowler out of order");
        pages.MapPost("place", Change).WithName("ChangePlace")
            .WithSummary("Notes that a bowler is at the table, did not come, is finished or left");
    }

    private static Answer Show(string @event, ClaimsPrincipal user, Events events, BowlerQueue queue) =>
        events.Find(@event) is { } held ? Page(held, user, queue) : NoEvent(@event);

    private static async Task<Answer> OpenTable(
        string @event, IFormCollection form, ClaimsPrincipal user, Events events, BowlerQueue queue, Calls calls)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var name = string.Join(' ', form["table"].ToString().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        if (name.Length is 0 or > LongestName || !PlainText.IsLine(name))
        {
            return Page(
                held, user, queue, name, $"\"{name}\" cannot be the name of a table; give 1 to {LongestName} characters, such as Table 2.");
        }

        return await calls.OpenTable(held, SignedIn.From(user).Person, name) is { } taken
            ? Page(
                held, user, queue, name,
                $"\"{taken.Name}\" is open already, by {taken.InspectorName ?? "name struck"}; give yours another name, "
                + "or close that one below.")
            : Back(held);
    }

    private static async Task<Answer> CloseTable(
        string @event, IFormCollection form, ClaimsPrincipal user, Events events, BowlerQueue queue, Calls calls)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        // By name, so that anyone can close the table of a person who went home.
        var key = Calls.KeyOf(form["table"].ToString());
        if (queue.Of(held).Tables.FirstOrDefault(table => Calls.KeyOf(table.Name) == key) is { } open)
        {
            await calls.CloseTable(held, open.Inspector);
        }

        return Back(held);
    }

    private static async Task<Answer> Next(
        string @event, IFormCollection form, ClaimsPrincipal user, Events events, BowlerQueue queue, Calls calls)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        return Called(held, user, queue, await calls.Next(held, SignedIn.From(user).Person, PlaceIn(form, "after")));
    }

    private static async Task<Answer> Take(
        string @event, IFormCollection form, ClaimsPrincipal user, Events events, BowlerQueue queue, Calls calls)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        return events.FindEntry(held.Id, form["entry"].ToString()) is { } entry
            ? entry.Refusal is { } withdrawn ? Page(held, user, queue, fault: withdrawn)
            : Called(held, user, queue, await calls.Take(held, SignedIn.From(user).Person, entry.Number))
            : ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no entry \"{form["entry"]}\" in \"{@event}\".");
    }

    private static async Task<Answer> Change(string @event, IFormCollection form, Events events, Calls calls)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var place = PlaceIn(form, "place");
        var task = form["act"].ToString() switch
        {
            "here" => calls.IsHere(held, place),
            "back" => calls.DidNotCome(held, place),
            "done" => calls.End(held, place, isDone: true),
            "left" => calls.End(held, place, isDone: false),
            _ => Task.FromResult(0),
        };
        await task;
        return form["act"] == "here" && events.FindEntry(held.Id, form["entry"].ToString()) is { } entry
            ? ToEntry(held, entry.Number)
            : Back(held);
    }

    private static Answer Called(Event held, ClaimsPrincipal user, BowlerQueue queue, CallResult result) => result switch
    {
        CallResult.Called called => ToEntry(held, called.Entry),
        CallResult.NoTable => Page(held, user, queue, fault: "Say which table you work at; then the next bowler can be called to it."),
        CallResult.Elsewhere elsewhere => Page(
            held, user, queue, queue.Of(held)
                .TableOf(SignedIn.From(user).Person)?.Name, $"Entry {elsewhere.Entry} is at {elsewhere.Table} already; nobody was called."),
        _ => Back(held),
    };

    private static RazorComponentResult<QueuePage> Page(
        Event held, ClaimsPrincipal user, BowlerQueue queue, string? typed = null, string? fault = null)
    {
        var faults = new Faults();
        if (fault is not null)
        {
            faults.Add("table", fault);
        }

        return new(new { Event = held, Queue = queue.Of(held), Viewer = SignedIn.From(user), Typed = typed, Faults = faults })
        {
            StatusCode = fault is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }

    private static long PlaceIn(IFormCollection form, string name) =>
        long.TryParse(form[name].ToString(), NumberStyles.None, CultureInfo.InvariantCulture, out var place) ? place : 0;

    private static RedirectHttpResult Back(Event held) => TypedResults.LocalRedirect($"/events/{held.Id}/queue");

    private static RedirectHttpResult ToEntry(Event held, string entry) =>
        TypedResults.LocalRedirect($"/events/{held.Id}/entries/{Uri.EscapeDataString(entry)}");

    private static RazorComponentResult<ErrorPage> NoEvent(string id) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{id}\" on this station.");
}
