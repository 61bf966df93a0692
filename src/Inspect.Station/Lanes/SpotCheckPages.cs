using System.Security.Claims;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Lanes;

/// <summary>The page on which an official on the lanes compares a ball with its slip, and the list of what was compared.</summary>
public static class SpotCheckPages
{
    public static void MapSpotCheckPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        pages.MapGet("/inspections/{number}/spot-check", Show).WithName("SpotCheckPage")
            .WithSummary("What to compare a ball in use with, and the form that records what was found");
        pages.MapPost("/inspections/{number}/spot-check", Send).WithName("SpotCheck").WithSummary("Records a spot check");
        pages.MapGet("/events/{event}/spot-checks", List).WithName("SpotChecksPage").WithSummary("Every spot check of an event");
    }

    private static Results<RazorComponentResult<SpotCheckPage>, RazorComponentResult<ErrorPage>> Show(
        string number, InspectionLookup lookup, Events events, People people, string? done = null) =>
        Page(number, lookup, events, people, TypedSpotCheck.Blank, isDone: done is not null) is { } page ? page : NotFound(number);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<SpotCheckPage>, RazorComponentResult<ErrorPage>>> Send(
        string number, IFormCollection form, ClaimsPrincipal user, SpotChecks spotChecks, InspectionLookup lookup, Events events,
        People people)
    {
        if (!InspectionNumber.TryParse(number, out var parsed))
        {
            return NotFound(number);
        }

        var typed = TypedSpotCheck.From(form);
        switch (await spotChecks.Record(SignedIn.From(user), parsed, typed.Key, typed.ToRequest()))
        {
            case DecideResult.Recorded:
                return TypedResults.LocalRedirect($"/inspections/{parsed}/spot-check?done=yes");
            case DecideResult.NoSuchInspection:
                return NotFound(number);
            case DecideResult.Refused refused:
                refused.Faults.All.ToList().ForEach(fault => typed.Faults.Add(fault.Path, typed.InWords(fault.Path, fault.Message)));
                break;
            default:
                typed.Faults.Add(
                    Faults.Whole, "This form was already used for another spot check; nothing was recorded now. Open a new form.");
                break;
        }

        return Page(number, lookup, events, people, typed, isDone: false) is { } page ? page : NotFound(number);
    }

    private static Results<RazorComponentResult<SpotChecksPage>, RazorComponentResult<ErrorPage>> List(
        string @event, Events events, Database database, Draws draws, DrawView view, People people, string? page = null)
    {
        if (events.Find(@event) is not { } held)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.");
        }

        using var connection = database.OpenForReading();
        return PageOf.Of(SpotCheckIndex.OfEvent(connection, held.Id), page) is { } checks
            ? new RazorComponentResult<SpotChecksPage>(new
            {
                Event = held,
                Page = checks,
                Draws = draws.Of(held.Id).Select(draw => (draw, view.Rows(held, draw).SelectMany(row => row.Balls).ToList())).ToList(),
                Counted = SpotCheckIndex.Counted(connection, held.Id),
                NameOf = (Func<PersonId, string?>)people.NameOf,
            })
            : ErrorAnswers.Page(StatusCodes.Status404NotFound, PageOf.NoSuchPage(page));
    }

    private static RazorComponentResult<SpotCheckPage>? Page(
        string number, InspectionLookup lookup, Events events, People people, TypedSpotCheck typed, bool isDone) =>
        InspectionNumber.TryParse(number, out var parsed) && lookup.ByNumber(parsed) is { } found
        && events.Find(found.Inspection.Event) is { } held
            ? new RazorComponentResult<SpotCheckPage>(new
            {
                Found = found,
                Event = held,
                Bowler = people.NameOf(found.Inspection.Bowler.Person),
                NameOf = (Func<PersonId, string?>)people.NameOf,
                Typed = typed,
                IsDone = isDone && found.SpotChecks.Count > 0,
            })
            { StatusCode = typed.Faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity }
            : null;

    private static RazorComponentResult<ErrorPage> NotFound(string number) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no inspection \"{number}\" on this station.");
}

/// <summary>The form of a spot check as typed.</summary>
/// <param name="Key">The form's key.</param>
/// <param name="IsTheBall">yes, no, or empty when nothing was chosen.</param>
/// <param name="Differs">The parts that were ticked.</param>
/// <param name="Remark">The remark.</param>
public sealed record TypedSpotCheck(string Key, string IsTheBall, IReadOnlyList<string> Differs, string Remark)
{
    /// <summary>The empty form, with a new key.</summary>
    public static TypedSpotCheck Blank => new(FormKey.Fresh(), "", [], "");

    /// <summary>The faults of the form.</summary>
    public Faults Faults { get; } = new();

    /// <summary>Reads a form that was sent.</summary>
    public static TypedSpotCheck From(IFormCollection form) => new(
        FormKey.Of(form), form["isTheBall"].ToString(), [.. form["differs"].OfType<string>()], form["remark"].ToString().Trim());

    /// <summary>The request that a program would send. What differs is left out where it is the ball.</summary>
    public byte[] ToRequest()
    {
        var request = new JsonObject();
        if (IsTheBall is "yes" or "no")
        {
            request["isTheBall"] = IsTheBall == "yes";
        }

        if (IsTheBall == "no" && Differs.Count > 0)
        {
            request["differs"] = new JsonArray([.. Differs.Select(part => JsonValue.Create(part))]);
        }

        if (Remark.Length > 0)
        {
            request["remark"] = Remark;
        }

        return Encoding.UTF8.GetBytes(request.ToJsonString());
    }

    /// <summary>A fault in words for a form: it asks for the missing answer, instead of naming a missing member.</summary>
    public string InWords(string path, string message) => (path, IsTheBall, Differs.Count) switch
    {
        ("isTheBall", "", _) => "Choose: it is the ball, or it is not.",
        ("differs", "no", 0) => "Tick what differs.",
        _ => message,
    };
}
