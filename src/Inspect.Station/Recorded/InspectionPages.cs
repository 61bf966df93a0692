using System.Security.Claims;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Recorded;

/// <summary>The page of a recorded inspection.</summary>
public static class InspectionPages
{
    public static void MapInspectionPages(this IEndpointRouteBuilder app)
    {
        var inspection = app.MapGroup("/inspections/{number}").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        inspection.MapGet("", Show).WithName("InspectionPage").WithSummary("One recorded inspection");
        inspection.MapPost("undo", Undo).WithName("UndoInspection")
            .WithSummary("Takes an inspection back, within ten minutes or until its slip is printed");
        inspection.MapPost("move", Move).WithName("MoveInspection")
            .WithSummary("Leads to the readings of a withdrawn inspection under another bowler");
    }

    private static Results<RazorComponentResult<InspectionPage>, RazorComponentResult<ErrorPage>> Show(
        string number, ClaimsPrincipal user, InspectionLookup lookup, InspectionView view) =>
        InspectionNumber.TryParse(number, out var parsed) && lookup.ByNumber(parsed) is { } found && view.Page(found, user) is { } page
            ? page : NotFound(number);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<InspectionPage>, RazorComponentResult<ErrorPage>>> Undo(
        string number, IFormCollection form, ClaimsPrincipal user, Rulings rulings, InspectionLookup lookup, InspectionView view,
        Events events)
    {
        if (!InspectionNumber.TryParse(number, out var parsed) || lookup.ByNumber(parsed) is not { } found)
        {
            return NotFound(number);
        }

        var (reason, moveTo) = (form["reason"].ToString().Trim(), form["moveTo"].ToString().Trim());
        if (moveTo.Length > 0 && NoOther(events, found, moveTo) is { } noEntry)
        {
            return view.Page(found, user, noEntry, reason, moveTo) is { } page ? page : NotFound(number);
        }

        if (await rulings.Undo(SignedIn.From(user), parsed, reason) is { } refusal)
        {
            // Where it can no longer be taken back the field is gone, so the fault is shown for the whole page.
            var faults = new Faults();
            faults.Add(view.CanUndo(found, user) ? "reason" : Faults.Whole, refusal);
            return view.Page(found, user, faults, reason) is { } page ? page : NotFound(number);
        }

        var undone = found.Inspection;
        return TypedResults.LocalRedirect(moveTo.Length > 0
            ? $"/events/{undone.Event}/entries/{moveTo}/balls/new?supersedes={parsed}"
            : $"/events/{undone.Event}/entries/{undone.Entry}/balls/new?supersedes={parsed}");
    }

    private static Results<RedirectHttpResult, RazorComponentResult<InspectionPage>, RazorComponentResult<ErrorPage>> Move(
        string number, IFormCollection form, ClaimsPrincipal user, InspectionLookup lookup, InspectionView view, Events events)
    {
        if (!InspectionNumber.TryParse(number, out var parsed) || lookup.ByNumber(parsed) is not { } found)
        {
            return NotFound(number);
        }

        var moveTo = form["moveTo"].ToString().Trim();
        return NoOther(events, found, moveTo) is not { } noEntry
            ? TypedResults.LocalRedirect($"/events/{found.Inspection.Event}/entries/{moveTo}/balls/new?supersedes={parsed}")
            : view.Page(found, user, noEntry, moveTo: moveTo) is { } page ? page : NotFound(number);
    }

    private static Faults? NoOther(Events events, FoundInspection found, string moveTo)
    {
        if (events.Find(found.Inspection.Event) is not { } held
            || EntryAddress.NoOther(events, held, found.Inspection.Entry, moveTo) is not { } refusal)
        {
            return null;
        }

        var faults = new Faults();
        faults.Add("moveTo", refusal);
        return faults;
    }

    /// <summary>The answer when there is no such inspection.</summary>
    internal static RazorComponentResult<ErrorPage> NotFound(string number) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no inspection \"{number}\" on this station.");
}
