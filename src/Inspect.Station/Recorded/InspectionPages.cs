using System.Security.Claims;
using Inspect.Station.Access;
using Inspect.Station.Decide;
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
        inspection.MapPost("undo", Undo).WithName("UndoInspection").WithSummary("Takes an inspection back within a minute");
    }

    private static Results<RazorComponentResult<InspectionPage>, RazorComponentResult<ErrorPage>> Show(
        string number, ClaimsPrincipal user, InspectionLookup lookup, InspectionView view) =>
        InspectionNumber.TryParse(number, out var parsed) && lookup.ByNumber(parsed) is { } found && view.Page(found, user) is { } page
            ? page : NotFound(number);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<InspectionPage>, RazorComponentResult<ErrorPage>>> Undo(
        string number, IFormCollection form, ClaimsPrincipal user, Rulings rulings, InspectionLookup lookup, InspectionView view,
        TimeProvider time)
    {
        if (!InspectionNumber.TryParse(number, out var parsed) || lookup.ByNumber(parsed) is not { } found)
        {
            return NotFound(number);
        }

        var reason = form["reason"].ToString().Trim();
        if (await rulings.Undo(SignedIn.From(user), parsed, reason) is { } refusal)
        {
            // After the minute the field is gone, so the fault is shown for the whole page.
            var faults = new Faults();
            faults.Add(Rulings.CanUndo(found, SignedIn.From(user).Person, time.GetUtcNow()) ? "reason" : Faults.Whole, refusal);
            return view.Page(found, user, faults, reason) is { } page ? page : NotFound(number);
        }

        var undone = found.Inspection;
        return TypedResults.LocalRedirect($"/events/{undone.Event}/entries/{undone.Entry}/balls/new?supersedes={parsed}");
    }

    /// <summary>The answer when there is no such inspection.</summary>
    internal static RazorComponentResult<ErrorPage> NotFound(string number) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no inspection \"{number}\" on this station.");
}
