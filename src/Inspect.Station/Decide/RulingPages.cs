using System.Globalization;
using System.Security.Claims;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Decision = Inspect.Station.Record.Decision;

namespace Inspect.Station.Decide;

/// <summary>The pages where a director rules on an inspection and sees what is open.</summary>
public static class RulingPages
{
    public static void MapRulingPages(this IEndpointRouteBuilder app)
    {
        var director = app.MapGroup("").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        director.MapGet("/inspections/{number}/rule", Show).WithName("RulePage").WithSummary("The form to rule on an inspection");
        director.MapPost("/inspections/{number}/rule", Send).WithName("Rule").WithSummary("Records a ruling");
        director.MapGet("/desk/events/{event}/open", ShowOpen).WithName("OpenPage")
            .WithSummary("Everything of an event that is not settled");
    }

    private static Results<RazorComponentResult<RulePage>, RazorComponentResult<ErrorPage>> Show(
        string number, ClaimsPrincipal user, InspectionLookup lookup, Events events, People people, Rulings rulings,
        EditionLibrary editions)
    {
        var typed = TypedRuling.Blank;
        return Page(number, user, lookup, events, people, rulings, editions, typed) is { } page ? page : NotFound(number);
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<RulePage>, RazorComponentResult<ErrorPage>>> Send(
        string number, IFormCollection form, ClaimsPrincipal user, InspectionLookup lookup, Events events, People people, Rulings rulings,
        EditionLibrary editions)
    {
        var typed = TypedRuling.From(form);
        if (!InspectionNumber.TryParse(number, out var parsed))
        {
            return NotFound(number);
        }

        switch (await rulings.Record(SignedIn.From(user), parsed, typed.Key, typed.ToRequest(), typed.Seen))
        {
            case DecideResult.Recorded:
                return TypedResults.LocalRedirect($"/inspections/{parsed}");
            case DecideResult.NoSuchInspection:
                return NotFound(number);
            case DecideResult.Refused refused:
                refused.Faults.All.ToList().ForEach(fault => typed.Faults.Add(fault.Path, typed.InWords(fault.Path, fault.Message)));
                break;
            default:
                typed.Faults.Add(Faults.Whole, "This form was already used for another ruling; nothing was recorded now. Open a new form.");
                break;
        }

        return Page(number, user, lookup, events, people, rulings, editions, typed) is { } page ? page : NotFound(number);
    }

    private static Results<RazorComponentResult<OpenPage>, RazorComponentResult<ErrorPage>> ShowOpen(
        string @event, Events events, OpenLists open, string? page = null)
    {
        if (events.Find(@event) is not { } held)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.");
        }

        var list = open.Of(held);
        return PageOf.Of(list.Places, page) is { } places
            ? new RazorComponentResult<OpenPage>(new { Event = held, List = list, Page = places.With(open.Read(places.Items)) })
            : ErrorAnswers.Page(StatusCodes.Status404NotFound, PageOf.NoSuchPage(page));
    }

    private static RazorComponentResult<RulePage>? Page(
        string number, ClaimsPrincipal user, InspectionLookup lookup, Events events, People people, Rulings rulings,
        EditionLibrary editions,
        TypedRuling typed)
    {
        if (!InspectionNumber.TryParse(number, out var parsed) || lookup.ByNumber(parsed) is not { } found
            || events.Find(found.Inspection.Event) is not { } held)
        {
            return null;
        }

        var by = SignedIn.From(user).Person;
        return new RazorComponentResult<RulePage>(new
        {
            Found = found,
            Event = held,
            Bowler = people.NameOf(found.Inspection.Bowler.Person),
            NameOf = (Func<PersonId, string?>)people.NameOf,
            Rules = found.Inspection.Verdict.Edition is { } mark && editions.TryFind(mark.Id, out var edition) ? edition.Title : null,
            Typed = typed,
            Open = rulings.Open(found, by),
            IsOwn = found.Inspection.By.Person == by,
            WhyNot = rulings.Refusal(found, Decision.Withdraw, by),
        })
        { StatusCode = typed.Faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }

    private static RazorComponentResult<ErrorPage> NotFound(string number) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no inspection \"{number}\" on this station.");
}

/// <summary>The form of a ruling as typed.</summary>
public sealed record TypedRuling(string Key, long Seen, string Decision, string Reason, string Condition)
{
    /// <summary>The empty form, with a new key.</summary>
    public static TypedRuling Blank => new(FormKey.Fresh(), 0, "", "", "");

    /// <summary>The faults of the form.</summary>
    public Faults Faults { get; } = new();

    /// <summary>Reads a form that was sent.</summary>
    public static TypedRuling From(IFormCollection form) => new(
        FormKey.Of(form),
        long.TryParse(form["seen"], NumberStyles.None, CultureInfo.InvariantCulture, out var seen) ? seen : 0,
        form["decision"].ToString(),
        form["reason"].ToString().Trim(),
        form["condition"].ToString().Trim());

    /// <summary>The request that a program would send. A condition is left out unless the decision is to allow the ball.</summary>
    public byte[] ToRequest()
    {
        var request = new JsonObject();
        foreach (var (name, text) in new[] { ("decision", Decision), ("reason", Reason),
            ("condition", Decision == "allow" ? Condition : "") })
        {
            if (text.Length > 0)
            {
                request[name] = text;
            }
        }

        return Encoding.UTF8.GetBytes(request.ToJsonString());
    }

    /// <summary>A fault in words for a form: it asks for the missing answer, instead of naming a missing member.</summary>
    public string InWords(string path, string message) => (path, Decision.Length, Reason.Length) switch
    {
        ("decision", 0, _) => "Choose a decision.",
        ("reason", _, 0) => "Say why: the sentence is printed on the slip and shown to anyone who scans it.",
        _ => message,
    };
}
