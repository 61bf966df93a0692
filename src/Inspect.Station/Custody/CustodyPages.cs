using System.Globalization;
using System.Security.Claims;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Custody;

/// <summary>The page where balls are taken in and given out.</summary>
public static class CustodyPages
{
    private const int LongestPlace = 40;

    public static void AddCustody(this IServiceCollection services) => services.AddSingleton<BallsInCustody>();

    public static void MapCustodyPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events/{event}/custody").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        pages.MapGet("", Show).WithName("CustodyPage").WithSummary("The balls that the venue keeps");
        pages.MapPost("", TakeIn).WithName("TakeBallIn").WithSummary("Takes a ball in");
        pages.MapPost("{id:long}", GiveOut).WithName("GiveBallOut").WithSummary("Gives a ball out");
    }

    private static Results<RazorComponentResult<CustodyPage>, RazorComponentResult<ErrorPage>> Show(
        string @event, [AsParameters] CustodyServices services, string? ball = null, long? done = null)
    {
        if (services.Events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var (typed, faults) = (ball?.Trim() ?? "", new Faults());
        var found = ball is null ? null : services.Custody.Find(held, typed, out var refusal) ?? Refused(faults, "ball", refusal!);
        return Page(services, held, faults, new CustodyAsked(typed, found, "", "") { Done = done });
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<CustodyPage>, RazorComponentResult<ErrorPage>>> TakeIn(
        string @event, IFormCollection form, ClaimsPrincipal user, [AsParameters] CustodyServices services)
    {
        if (services.Events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var (typed, place, faults) = (form["ball"].ToString().Trim(), form["place"].ToString().Trim(), new Faults());
        if (place.Length > LongestPlace || !PlainText.IsLine(place))
        {
            faults.Add("place", $"\"{place}\" cannot be a place; write at most {LongestPlace} characters.");
        }

        var found = services.Custody.Find(held, typed, out var refusal) ?? Refused(faults, "ball", refusal!);
        if (!faults.AreNone)
        {
            return Page(services, held, faults, new CustodyAsked(typed, found, place, ""));
        }

        var (by, at) = (SignedIn.From(user).Person, services.Time.GetUtcNow());
        await services.Gate.Run(write => BallsInCustody.TakeIn(write, found!.Inspection, place.Length == 0 ? null : place, by, at));
        return To(held, services.Custody.Here(held.Id, found!.Inspection.Ball)?.Id);
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<CustodyPage>, RazorComponentResult<ErrorPage>>> GiveOut(
        string @event, long id, IFormCollection form, ClaimsPrincipal user, [AsParameters] CustodyServices services)
    {
        if (services.Events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var (to, faults) = (form["to"].ToString().Trim(), new Faults());
        if (services.Events.FindEntry(held.Id, to) is null)
        {
            faults.Add("to", to.Length == 0
                ? "Write the number of the bowler who takes it." : $"There is no entry \"{to}\" in {held.Name}.");
            var typed = form["ball"].ToString();
            return Page(services, held, faults, new CustodyAsked(typed, services.Custody.Find(held, typed, out _), "", to));
        }

        var (by, at) = (SignedIn.From(user).Person, services.Time.GetUtcNow());
        await services.Gate.Run(write => BallsInCustody.GiveOut(write, held.Id, id, to, by, at));
        return To(held, id);
    }

    private static FoundInspection? Refused(Faults faults, string path, string refusal)
    {
        faults.Add(path, refusal);
        return null;
    }

    private static RedirectHttpResult To(Event held, long? id) => TypedResults.LocalRedirect(
        string.Create(CultureInfo.InvariantCulture, $"/events/{held.Id}/custody{(id is null ? "" : $"?done={id}")}"));

    private static RazorComponentResult<CustodyPage> Page(CustodyServices services, Event held, Faults faults, CustodyAsked asked)
    {
        var (here, givenOut) = services.Custody.Of(held.Id, most: 20);
        return new RazorComponentResult<CustodyPage>(new
        {
            Event = held,
            Balls = here,
            GivenOut = givenOut,
            Asked = asked,
            Kept = asked.Found is { } found ? services.Custody.Here(held.Id, found.Inspection.Ball) : null,
            Names = services.Events.EntriesOf(held.Id).ToDictionary(entry => entry.Number, entry => entry.Bowler ?? "name struck"),
            Faults = faults,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }

    private static RazorComponentResult<ErrorPage> NoEvent(string @event) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.");
}

/// <summary>What the page of balls in custody was asked.</summary>
/// <param name="Typed">What was scanned or typed for the ball.</param>
/// <param name="Found">The inspection that it means; null for none.</param>
/// <param name="Place">Where it is put, as typed.</param>
/// <param name="To">Who takes it, as typed.</param>
public sealed record CustodyAsked(string Typed, FoundInspection? Found, string Place, string To)
{
    /// <summary>The ball that was taken in or given out just now.</summary>
    public long? Done { get; init; }
}

/// <summary>What the page of balls in custody needs.</summary>
public sealed record CustodyServices(Events Events, BallsInCustody Custody, WriteGate Gate, TimeProvider Time);
