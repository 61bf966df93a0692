using System.Security.Claims;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Measure;

/// <summary>Unfinished sheets: saved while typed, listed, continued at any table, or discarded.</summary>
public static class UnfinishedPages
{
    public static void MapUnfinishedPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        pages.MapPost("/events/{event}/entries/{entry}/balls/keep", Keep).WithName("KeepSheet")
            .WithSummary("Saves a sheet while it is typed");
        pages.MapGet("/events/{event}/unfinished", Show).WithName("UnfinishedPage").WithSummary("Sheets that are being measured");
        pages.MapGet("/events/{event}/unfinished/{form}", Ask).WithName("DiscardSheetPage").WithSummary("Asks before a sheet is discarded");
        pages.MapPost("/events/{event}/unfinished/{form}", Discard).WithName("DiscardSheet").WithSummary("Discards an unfinished sheet");
        pages.MapPost("/events/{event}/unfinished/{form}/move", Move).WithName("MoveSheet")
            .WithSummary("Gives an unfinished sheet to another bowler");
    }

    private static async Task<Results<JsonHttpResult<KeptAnswerToPage>, NotFound>> Keep(
        [AsParameters] EntryAddress address, IFormCollection form, ClaimsPrincipal user, Events events, UnfinishedSheets sheets,
        People people)
    {
        if (address.In(events) is not var (held, entry))
        {
            return TypedResults.NotFound();
        }

        var kept = await sheets.Keep(SignedIn.From(user), SheetToKeep.Of(OpenForm.Sent(held, entry, form), form));
        return TypedResults.Json(new KeptAnswerToPage(
            kept.Revision,
            kept.Recorded,
            [.. kept.OfOthers.Select(other => new KeptFieldOfAnother(
                other.Name, other.Kept.Values, other.IsConflict, Who(people, other.Kept)))]));
    }

    private static Results<RazorComponentResult<UnfinishedPage>, RazorComponentResult<ErrorPage>> Show(
        string @event, Events events, UnfinishedRows rows) =>
        events.Find(@event) is { } held
            ? new RazorComponentResult<UnfinishedPage>(new { Event = held, Rows = rows.OfEvent(held.Id) })
            : ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.");

    private static Results<RazorComponentResult<DiscardPage>, RazorComponentResult<ErrorPage>> Ask(
        string @event, string form, Events events, UnfinishedRows rows) =>
        events.Find(@event) is { } held && rows.Find(form) is { } row && row.Sheet.Event == held.Id
            ? new RazorComponentResult<DiscardPage>(new { Event = held, Row = row })
            : Gone();

    private static async Task<RedirectHttpResult> Discard(string @event, string form, IFormCollection answers, UnfinishedSheets sheets)
    {
        if (sheets.Find(form) is { } sheet && string.Equals(sheet.Event, @event, StringComparison.Ordinal))
        {
            await sheets.Discard(form);
        }

        return TypedResults.LocalRedirect($"/events/{Uri.EscapeDataString(@event)}/unfinished");
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<DiscardPage>, RazorComponentResult<ErrorPage>>> Move(
        string @event, string form, IFormCollection answers, Events events, UnfinishedSheets sheets, UnfinishedRows rows)
    {
        if (events.Find(@event) is not { } held || rows.Find(form) is not { } row || row.Sheet.Event != held.Id
            || events.FindEntry(held.Id, row.Sheet.Entry) is not { } entry)
        {
            return Gone();
        }

        var sheet = new OpenForm(held, entry, form, row.Sheet.Supersedes, row.Sheet.Ball, row.Sheet.Typed);

        var number = answers["moveTo"].ToString().Trim();
        if (sheets.RefusalToMove(events, sheet, number) is { } refusal)
        {
            var faults = new Faults();
            faults.Add("moveTo", refusal);
            return new RazorComponentResult<DiscardPage>(new { Event = held, Row = row, Faults = faults, MoveTo = number })
            {
                StatusCode = StatusCodes.Status422UnprocessableEntity,
            };
        }

        await sheets.Move(form, number);
        return TypedResults.LocalRedirect($"/events/{held.Id}/entries/{number}/balls/new?form={form}");
    }

    private static RazorComponentResult<ErrorPage> Gone() =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, "This sheet is no longer waiting: it was recorded or discarded.");

    /// <summary>Who typed a field, for people.</summary>
    internal static string Who(People people, KeptField kept) =>
        (people.NameOf(PersonId.From(kept.By)) ?? "somebody") + (kept.Table is { } table ? $" at {table}" : "");
}

/// <summary>The answer to a page whose sheet was saved.</summary>
/// <param name="Revision">The revision that the page now has.</param>
/// <param name="Recorded">The number of the inspection, if the form was already recorded.</param>
/// <param name="Others">What others typed in the meantime.</param>
public sealed record KeptAnswerToPage(long Revision, string? Recorded, IReadOnlyList<KeptFieldOfAnother> Others);

/// <summary>A field that somebody else typed into.</summary>
/// <param name="Name">The field.</param>
/// <param name="Values">Its values.</param>
/// <param name="Conflict">Whether it was also changed on this page.</param>
/// <param name="Who">Who typed it, and where.</param>
public sealed record KeptFieldOfAnother(string Name, string[] Values, bool Conflict, string Who);
