using System.Security.Claims;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Scan;

/// <summary>What the code on a slip leads to, for programs. It does not name the bowler.</summary>
/// <param name="Code">The code.</param>
/// <param name="Number">The inspection's number.</param>
/// <param name="Standing">stands, superseded, withdrawn or ruled.</param>
/// <param name="Event">The event's name.</param>
/// <param name="GoodFrom">The first day the slip is good for.</param>
/// <param name="GoodTo">The last day the slip is good for.</param>
/// <param name="Play">The day of play whose rules were applied.</param>
/// <param name="Entry">The bowler's number in the event.</param>
/// <param name="Ball">What is written on the ball.</param>
/// <param name="Grip">The grip under which it was judged.</param>
/// <param name="Verdict">The verdict as recorded.</param>
/// <param name="ReplacedBy">The number of the inspection that replaced it.</param>
/// <param name="Ruling">The ruling in force, in a sentence that names an office and nobody.</param>
/// <param name="SpotChecks">The comparisons of a ball in use with it, oldest first; for officials who are signed in alone.</param>
public sealed record SlipAnswer(
    string Code,
    string Number,
    string Standing,
    string Event,
    DateOnly GoodFrom,
    DateOnly GoodTo,
    DateOnly Play,
    string Entry,
    SlipBall Ball,
    string Grip,
    Verdict Verdict,
    string? ReplacedBy,
    string? Ruling,
    SpotCheckAnswer[]? SpotChecks);

/// <summary>What is written on a ball.</summary>
public sealed record SlipBall(string? Maker, string? Model, string? Serial, string? Tag);

/// <summary>Answers a scan: a page for a phone in its language, and the same for programs in English.</summary>
public static class ScanRoutes
{
    private const string Unknown =
        "No slip of this station has this code. Check it against the slip, character by character, or ask at the inspection table.";

    public static void MapScanRoutes(this IEndpointRouteBuilder app)
    {
        app.MapGet("/s/{code}", Page).WithName("ScanPage").WithSummary("What a scanned slip shows").RequireRateLimiting(RateLimits.Scan)
            .ExcludeFromDescription();
        app.MapGet("/api/slips/{code}", Show)
            .WithName("ShowSlip").WithTags("Slips").WithSummary("What a scanned slip shows, without the bowler's name")
            .MayRefuse(404, 429).RequireRateLimiting(RateLimits.Scan);
    }

    private static Results<RazorComponentResult<ScanPage>, RazorComponentResult<UnknownSlipPage>> Page(
        string code, HttpContext http, InspectionLookup lookup, Events events, EditionLibrary editions)
    {
        http.Response.Headers.CacheControl = "no-store";
        var words = ScanWords.In(Language.For(http));
        if (Find(code, lookup, events) is not { } found || events.Find(found.Inspection.Event) is not { } held)
        {
            return new RazorComponentResult<UnknownSlipPage>(new { Words = words }) { StatusCode = StatusCodes.Status404NotFound };
        }

        var edition = found.Inspection.Verdict.Edition is { } mark && editions.TryFind(mark.Id, out var known) ? known : null;
        var now = Latest(found, lookup);
        return new RazorComponentResult<ScanPage>(new { Words = words, Found = found, Now = now, Event = held, Edition = edition });
    }

    // A slip that was replaced may lead to one that was replaced too.
    private static FoundInspection Latest(FoundInspection found, InspectionLookup lookup)
    {
        while (found.SupersededBy is { } later && InspectionNumber.TryParse(later, out var number) && lookup.ByNumber(number) is { } next)
        {
            found = next;
        }

        return found;
    }

    private static Results<Ok<SlipAnswer>, ProblemHttpResult> Show(
        string code, HttpResponse response, ClaimsPrincipal user, InspectionLookup lookup, Events events, People people)
    {
        response.Headers.CacheControl = "no-store";
        return Find(code, lookup, events) is { } found && events.Find(found.Inspection.Event) is { } held
            ? TypedResults.Ok(Answer(found, held, SignedIn.TryFrom(user, out _) ? SpotChecksApi.Answers(found, people) : null))
            : Problems.Refused(StatusCodes.Status404NotFound, Unknown);
    }

    private static FoundInspection? Find(string code, InspectionLookup lookup, Events events) =>
        SlipCode.TryParse(code, out var parsed) && lookup.ByCode(parsed) is { } found
            ? found.Rulings.Count == 0 ? found : found.ForAnyone(events.YoungBowlersOf(found.Inspection.Event))
            : null;

    private static SlipAnswer Answer(FoundInspection found, Event held, SpotCheckAnswer[]? spotChecks)
    {
        var inspection = found.Inspection;
        var ball = inspection.Sheet.Ball;
        return new SlipAnswer(
            inspection.Code.ToString(), inspection.Number.ToString(), Standing.WordOf(found), held.Name, held.From, held.To,
            inspection.Sheet.Play, inspection.Entry,
            new SlipBall(ball?.Maker, ball?.Model, ball?.Serial, inspection.Tag), GripWords.Of(inspection.Sheet.Grip), inspection.Verdict,
            found.SupersededBy,
            found.Ruling?.Sentence(TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone), by: null),
            spotChecks);
    }
}
