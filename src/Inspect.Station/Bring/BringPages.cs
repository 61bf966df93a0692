using System.Security.Claims;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Bring;

/// <summary>The code on an entry's card: for the bowler the list of balls, for an official at the table the entry.</summary>
public static class BringPages
{
    private const string Unknown = "No entry of this station has this code. Scan the card again, or ask at the inspection table.";

    public static void MapBringPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/e/{code}").RequireRateLimiting(RateLimits.Scan).ExcludeFromDescription();
        pages.MapGet("", Show).WithName("BringPage").WithSummary("A bowler's own list of balls, opened with the code on the card");
        pages.MapPost("", Add).WithName("BringBall").WithSummary("Writes a ball on the bowler's own list");
        pages.MapPost("again", AddAgain).WithName("BringBallAgain")
            .WithSummary("Writes a ball of an earlier event on the bowler's own list");
        pages.MapPost("said", Say).WithName("SayOfBall").WithSummary("Keeps what the bowler says of an inspected ball");
        pages.MapPost("remove", Remove).WithName("LeaveBall").WithSummary("Takes a ball that was not inspected off the bowler's own list");
    }

    private static Results<RedirectHttpResult, RazorComponentResult<BringPage>, RazorComponentResult<ErrorPage>> Show(
        string code, ClaimsPrincipal user, HttpResponse response, [AsParameters] BringServices services) =>
        services.Of(code, response) is not var (held, entry, card) ? ErrorAnswers.Page(StatusCodes.Status404NotFound, Unknown)
        : SignedIn.TryFrom(user, out _) ? TypedResults.LocalRedirect($"/events/{held.Id}/entries/{entry.Number}")
        : Page(services, (held, entry, card), TypedEntered.None, new Faults());

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<BringPage>, RazorComponentResult<ErrorPage>>> Add(
        string code, IFormCollection form, HttpResponse response, [AsParameters] BringServices services)
    {
        if (services.Of(code, response) is not var (held, entry, card))
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, Unknown);
        }

        var (typed, faults) = (TypedEntered.Of(form), new Faults());
        var ball = typed.Read(held, services.Earlier.Of(held, entry), faults);
        return ball is not null && await Write(services, held, entry, ball, faults)
            ? TypedResults.LocalRedirect($"/e/{card}#list")
            : Page(services, (held, entry, card), typed, faults);
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<BringPage>, RazorComponentResult<ErrorPage>>> AddAgain(
        string code, IFormCollection form, HttpResponse response, [AsParameters] BringServices services)
    {
        if (services.Of(code, response) is not var (held, entry, card))
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, Unknown);
        }

        var faults = new Faults();
        var before = services.Earlier.Of(held, entry).FirstOrDefault(each => each.Ball == form["ball"]);
        if (before is null or { Written.Name.Length: 0 })
        {
            faults.Add(Faults.Whole, "That ball cannot be taken over; write down below what is on it.");
        }

        return faults.AreNone && await Write(services, held, entry, before!.Written, faults)
            ? TypedResults.LocalRedirect($"/e/{card}#list")
            : Page(services, (held, entry, card), TypedEntered.None, faults);
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<BringPage>, RazorComponentResult<ErrorPage>>> Remove(
        string code, IFormCollection form, HttpResponse response, [AsParameters] BringServices services)
    {
        if (services.Of(code, response) is not var (held, entry, card))
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, Unknown);
        }

        var faults = new Faults();
        var ball = form["ball"].ToString();
        var listed = services.Balls.OfEntry(held.Id, entry.Number).FirstOrDefault(each => each.Removed is null && $"{each.Id}" == ball);
        if (Closed(services, held, entry) is { } closed)
        {
            faults.Add(Faults.Whole, closed);
        }
        else if (listed is not null && services.Lookup.OfEntry(held.Id, entry.Number).Any(row => row.Stands && listed.Is(row)))
        {
            faults.Add(Faults.Whole, $"{listed.Ball.Name} has been inspected; ask at the inspection table to take it off.");
        }

        if (!faults.AreNone)
        {
            return Page(services, (held, entry, card), TypedEntered.None, faults);
        }

        // A ball that is gone already is what was asked for.
        var at = services.Time.GetUtcNow();
        if (listed is not null)
        {
            await services.Gate.Run(write => EnteredBalls.Remove(write, held.Id, entry.Number, listed.Id, null, at));
        }

        return TypedResults.LocalRedirect($"/e/{card}#list");
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<BringPage>, RazorComponentResult<ErrorPage>>> Say(
        string code, IFormCollection form, HttpResponse response, [AsParameters] BringServices services)
    {
        if (services.Of(code, response) is not var (held, entry, card))
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, Unknown);
        }

        var (number, said, faults) = (form["number"].ToString(), form["said"].ToString(), new Faults());
        if (said is not (SaidByBowler.Seen or SaidByBowler.NotUsed)
            || services.Lookup.OfEntry(held.Id, entry.Number).All(row => row.Number != number))
        {
            faults.Add(Faults.Whole, "That ball is not one of yours here; ask at the inspection table.");
            return Page(services, (held, entry, card), TypedEntered.None, faults);
        }

        var at = services.Time.GetUtcNow();
        await services.Gate.Run(write => SaidByBowler.Keep(write, number, said, at));
        return TypedResults.LocalRedirect($"/e/{card}#inspected");
    }

    private static async Task<bool> Write(BringServices services, Event held, Entry entry, BallAsWritten ball, Faults faults)
    {
        var (most, at) = (services.Tables.Of(held.Id).MostBalls, services.Time.GetUtcNow());
        var refusal = Closed(services, held, entry)
            ?? await services.Gate.Run(write => EnteredBalls.Add(write, held, entry.Number, ball, null, at, most));
        if (refusal is not null)
        {
            faults.Add(Faults.Whole, refusal);
        }

        return refusal is null;
    }

    private static string? Closed(BringServices services, Event held, Entry entry) =>
        entry.IsWithdrawn ? $"Entry {entry.Number} is withdrawn. If you bowl here, ask at the inspection table."
        : held.DayAt(services.Time.GetUtcNow()) > held.To ? $"{held.Name} is over; this list can no longer be changed."
        : null;

    private static RazorComponentResult<BringPage> Page(
        BringServices services, (Event Held, Entry Entry, SlipCode Card) opened, TypedEntered typed, Faults faults)
    {
        var (held, entry, card) = opened;
        var balls = services.Balls.OfEntry(held.Id, entry.Number).Where(ball => ball.Removed is null).ToList();
        var inspected = services.Lookup.OfEntry(held.Id, entry.Number);
        return new RazorComponentResult<BringPage>(new
        {
            Event = held,
            Entry = entry,
            Code = card.ToString(),
            Balls = balls,
            Inspected = inspected,
            Said = services.Said.Of(inspected.Select(row => row.Number)),
            Earlier = services.Earlier.Of(held, entry).Where(ball => ball.Written.Name.Length > 0)
                .Where(ball => balls.All(each => each.Ball.Known != ball.Ball)).ToList(),
            services.Tables.Of(held.Id).MostBalls,
            Closed = Closed(services, held, entry),
            Typed = typed,
            Faults = faults,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }
}

/// <summary>What the pages of a list need.</summary>
public sealed record BringServices(
    Events Events, EntryCards Cards, EnteredBalls Balls, EarlierBalls Earlier, InspectionLookup Lookup, SaidByBowler Said,
    EventTables Tables, WriteGate Gate, TimeProvider Time)
{
    /// <summary>The event, the entry whose card has a code, and the code as it is written on cards; or null. A card of an entry that was
    /// merged is one of the entry that stays. The page is not kept by a browser.</summary>
    public (Event Held, Entry Entry, SlipCode Card)? Of(string code, HttpResponse response)
    {
        response.Headers.CacheControl = "no-store";
        return SlipCode.TryParse(code, out var card) && Cards.Find(card) is { } address && Of(address) is var (held, entry)
            ? (held, entry, card) : null;
    }

    private (Event Held, Entry Entry)? Of(EntryAddress address) =>
        address.In(Events) is (_, { MergedInto: { } kept }) ? (address with { Entry = kept }).In(Events) : address.In(Events);
}
