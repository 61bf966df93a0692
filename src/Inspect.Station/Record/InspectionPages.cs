using System.Security.Claims;
using Inspect.Station.Access;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Record;

/// <summary>What was recorded, for people.</summary>
public static class InspectionPages
{
    public static void MapInspectionPages(this IEndpointRouteBuilder app) => app.MapGet("/inspections/{number}", Show)
        .RequireAuthorization(Policies.Inspector).ExcludeFromDescription().WithName("InspectionPage").WithSummary("One recorded inspection");

    private static Results<RazorComponentResult<InspectionPage>, RazorComponentResult<ErrorPage>> Show(
        string number, ClaimsPrincipal user, InspectionLookup lookup, InspectionView view) =>
        InspectionNumber.TryParse(number, out var parsed) && lookup.ByNumber(parsed) is { } found && view.Page(found, user) is { } page ? page : NotFound(number);

    /// <summary>The answer where there is no such inspection.</summary>
    internal static RazorComponentResult<ErrorPage> NotFound(string number) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no inspection \"{number}\" on this station.");
}
