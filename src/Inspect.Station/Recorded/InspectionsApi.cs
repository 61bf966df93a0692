using System.Security.Claims;
using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Record;
using Inspect.Station.Slip;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Inspect.Station.Recorded;

/// <summary>A recorded inspection with its history.</summary>
/// <param name="Number">The inspection's number.</param>
/// <param name="Code">The code in the slip's QR code.</param>
/// <param name="At">When it was recorded, UTC.</param>
/// <param name="Event">The event's short name.</param>
/// <param name="Entry">The bowler's number in it.</param>
/// <param name="Ball">The id of the ball.</param>
/// <param name="Standing">stands, superseded, withdrawn or ruled.</param>
/// <param name="Sheet">What was measured, texts as typed.</param>
/// <param name="Verdict">The verdict as recorded.</param>
/// <param name="Links">Its links.</param>
/// <param name="Rulings">What was ruled on it, oldest first.</param>
/// <param name="History">The numbers of every inspection of this ball, oldest first.</param>
/// <param name="Bowler">The bowler's name; absent once struck.</param>
/// <param name="By">Who recorded it; absent once struck.</param>
/// <param name="Tag">The numbered seal or tag on the ball.</param>
/// <param name="WorkDone">What was done to the ball since the inspection that this one replaced; absent once struck.</param>
/// <param name="Confirmed">The paths of readings far from what a ball can have that were confirmed to be read so; absent where there are
/// none.</param>
/// <param name="List">The list of approved balls that was read for it; absent where the event read none.</param>
/// <param name="SpotChecks">The comparisons of a ball in use with it, oldest first; absent where there are none.</param>
public sealed record InspectionAnswer(
    string Number,
    string Code,
    string At,
    string Event,
    string Entry,
    string Ball,
    string Standing,
    Sheet Sheet,
    Verdict Verdict,
    InspectionLinks Links,
    RulingAnswer[] Rulings,
    string[] History,
    string? Bowler,
    string? By,
    string? Tag,
    string? WorkDone,
    string[]? Confirmed,
    RecordedList? List,
    SpotCheckAnswer[]? SpotChecks);

/// <summary>What a list of approved balls said of a recorded ball's model.</summary>
/// <param name="Name">What the list is called.</param>
/// <param name="Sha256">The hash of the file of the version that was read.</param>
/// <param name="Said">yes or no; absent where the list did not have the model.</param>
/// <param name="Reason">Why it was answered otherwise; absent where it was not, and once struck.</param>
public sealed record RecordedList(string Name, string Sha256, string? Said, string? Reason);

/// <summary>The routes for programs that record and read inspections.</summary>
public static class InspectionsApi
{
    public static void MapInspectionsApi(this IEndpointRouteBuilder app)
    {
        var inspections = app.MapGroup("/api/inspections").RequireAuthorization(Policies.Inspector).WithTags("Inspections");
        inspections.MapPost("", Record)
            .WithName("RecordInspection").WithSummary("Judges a sheet again and records it; Idempotency-Key is required")
            .Takes(RecordRequest.Schema).Produces<InspectionRecorded>(201).Produces<InspectionRecorded>(200)
            .MayRefuse(400, 401, 403, 413, 415, 422);
        inspections.MapGet("{number}", Show).WithName("ShowInspection").WithSummary("One recorded inspection with its history")
            .MayRefuse(401, 403, 404);
        inspections.MapGet("{number}/slip.pdf", Slip).WithName("SlipPdf").WithSummary("The slip, as a PDF for a stock")
            .Sends("application/pdf").MayRefuse(400, 401, 403, 404);
    }

    private static async Task<Results<JsonAnswer, ProblemHttpResult, ValidationProblem>> Record(
        HttpRequest request, ClaimsPrincipal user, Inspections inspections, [FromHeader(Name = "Idempotency-Key")] string? key = null)
    {
        if (Idempotency.RefusalOf(key, "inspection") is { } refusal)
        {
            var faults = new Faults();
            faults.Add("Idempotency-Key", refusal);
            return Problems.Unusable(faults);
        }

        return await inspections.Record(SignedIn.From(user), key!, await RequestBody.Read(request)) switch
        {
            RecordResult.Recorded recorded => new JsonAnswer(recorded.Answer, StatusCodes.Status201Created),
            RecordResult.RecordedBefore before => new JsonAnswer(before.Answer, StatusCodes.Status200OK),
            RecordResult.Refused refused => Problems.Unusable(refused.Faults),
            _ => Problems.Refused(StatusCodes.Status422UnprocessableEntity,
                "This Idempotency-Key was used for another request; use a new one for each inspection."),
        };
    }

    private static Results<Ok<InspectionAnswer>, ProblemHttpResult> Show(
        string number, InspectionLookup lookup, People people, Remarks remarks) =>
        Find(number, lookup) is { } found
            ? TypedResults.Ok(Answer(found, lookup, people, remarks))
            : NotFound(number);

    private static async Task<Results<FileContentHttpResult, ProblemHttpResult, ValidationProblem>> Slip(
        string number, ClaimsPrincipal user, InspectionLookup lookup, SlipPrinter printer, SlipPrints prints, string? stock = null)
    {
        if (!SlipPrinter.TryStock(stock, out var paper))
        {
            var faults = new Faults();
            faults.Add("stock", $"\"{stock}\" is not a known paper stock; use one of "
                + $"{string.Join(", ", SlipStock.All.Select(each => each.Name))}.");
            return Problems.Unusable(faults);
        }

        if (Find(number, lookup) is not { } found)
        {
            return NotFound(number);
        }

        var slip = printer.Print(found, paper, await prints.Note(found.Seq, SignedIn.From(user).Person));
        return TypedResults.File(slip, "application/pdf", $"{found.Inspection.Number}.pdf");
    }

    private static FoundInspection? Find(string number, InspectionLookup lookup) =>
        InspectionNumber.TryParse(number, out var parsed) ? lookup.ByNumber(parsed) : null;

    private static ProblemHttpResult NotFound(string number) =>
        Problems.Refused(StatusCodes.Status404NotFound, $"There is no inspection \"{number}\" on this station.");

    private static InspectionAnswer Answer(FoundInspection found, InspectionLookup lookup, People people, Remarks remarks)
    {
        var inspection = found.Inspection;
        return new InspectionAnswer(
            inspection.Number.ToString(), inspection.Code.ToString(), InspectionBody.Instant(inspection.At), inspection.Event,
            inspection.Entry, inspection.Ball,
            Standing.WordOf(found), inspection.Sheet, inspection.Verdict, Inspections.Links(inspection), RulingsApi.Answers(found, people),
            [.. lookup.OfBall(inspection.Ball).Select(row => row.Number)],
            people.NameOf(inspection.Bowler.Person), people.NameOf(inspection.By.Person),
            inspection.Tag, inspection.WorkDoneHash is { } hash ? remarks.TextOf(inspection.By.Person, hash) : null,
            inspection.Confirmed.Count > 0 ? [.. inspection.Confirmed] : null,
            inspection.List is { } list ? new RecordedList(
                list.Name, list.Sha256, list.Said is { } said ? Words.Of(said) : null,
                list.ReasonHash is { } why ? remarks.TextOf(inspection.By.Person, why) : null) : null,
            SpotChecksApi.Answers(found, people));
    }
}
