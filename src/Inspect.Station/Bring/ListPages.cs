using System.Security.Claims;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Bring;

/// <summary>The page on which officials change the list of balls of an entry.</summary>
public static class ListPages
{
    public static void MapListPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events/{event}/entries/{entry}/balls/list").RequireAuthorization(Policies.Inspector)
            .ExcludeFromDescription();
        pages.MapGet("", Show).WithName("ListPage").WithSummary("The balls that a bowler brings");
        pages.MapPost("", Add).WithName("EnterBall").WithSummary("Writes a ball on an entry's list");
        pages.MapPost("{ball:long}", Pass).WithName("PassBall").WithSummary("Moves or lends a ball of a list, or takes it off");
    }

    private static Results<RazorComponentResult<ListPage>, RazorComponentResult<ErrorPage>> Show(
        [AsParameters] EntryAddress address, [AsParameters] BringServices services) =>
        address.In(services.Events) is var (held, entry)
            ? Page(services, held, entry, new Faults()) : address.NoEntry();

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<ListPage>, RazorComponentResult<ErrorPage>>> Add(
        [AsParameters] EntryAddress address, IFormCollection form, ClaimsPrincipal user, [AsParameters] BringServices services)
    {
        if (address.In(services.Events) is not var (held, entry))
        {
            return address.NoEntry();
        }

        var (typed, faults) = (TypedEntered.Of(form), new Faults());
        if (typed.Read(held, services.Earlier.Of(held, entry), faults) is { } ball)
        {
            var (by, at) = (SignedIn.From(user).Person, services.Time.GetUtcNow());
            if (await services.Gate.Run(write => EnteredBalls.Add(write, held, entry.Number, ball, by, at, null)) is not { } refusal)
            {
                return Back(held, entry);
            }

            faults.Add(Faults.Whole, refusal);
        }

        return Page(services, held, entry, faults, typed);
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<ListPage>, RazorComponentResult<ErrorPage>>> Pass(
        [AsParameters] EntryAddress address, long ball, IFormCollection form, ClaimsPrincipal user, [AsParameters] BringServices services)
    {
        if (address.In(services.Events) is not var (held, entry))
        {
            return address.NoEntry();
        }

        var faults = new Faults();
        var (act, to) = (form["act"].ToString(), form[$"to.{ball}"].ToString().Trim());
        var (by, at) = (SignedIn.From(user).Person, services.Time.GetUtcNow());
        var isPassed = act is "move" or "lend";
        if (isPassed && RefusalToPass(services.Events, held, entry, to) is { } refusal)
        {
            faults.Add($"to.{ball}", refusal);
        }
        else if (isPassed)
        {
            await services.Gate.Run(write => EnteredBalls.Pass(write, address, ball, to, act == "lend", (by, at)));
        }
        else if (act == "remove")
        {
            await services.Gate.Run(write => EnteredBalls.Remove(write, held.Id, entry.Number, ball, by, at));
        }

        return faults.AreNone ? Back(held, entry) : Page(services, held, entry, faults, to: to);
    }

    private static string? RefusalToPass(Events events, Event held, Entry entry, string to) =>
        to.Length == 0 ? "Write the number of the entry that it goes to."
        : events.FindEntry(held.Id, to) is not { } other ? $"There is no entry \"{to}\" in {held.Name}."
        : other.Number == entry.Number ? $"It is on the list of entry {to} already."
        : other.Refusal;

    private static RedirectHttpResult Back(Event held, Entry entry) =>
        TypedResults.LocalRedirect($"/events/{held.Id}/entries/{entry.Number}/balls/list#list");

    private static RazorComponentResult<ListPage> Page(
        BringServices services, Event held, Entry entry, Faults faults, TypedEntered? typed = null, string? to = null) => new(new
        {
            Event = held,
            Entry = entry,
            Balls = services.Balls.OfEntry(held.Id, entry.Number),
            Doubts = services.Balls.Doubts(held.Id, entry.Number, services.Lookup.OfEntry(held.Id, entry.Number)),
            services.Tables.Of(held.Id).MostBalls,
            Typed = typed ?? TypedEntered.None,
            To = to,
            Faults = faults,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
}
