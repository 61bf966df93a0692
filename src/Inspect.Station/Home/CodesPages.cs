using Inspect.Station.Access;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Home;

/// <summary>The page on which a director tries a code with a phone, and the page that the phone opens.</summary>
public static class CodesPages
{
    // How often the page looks whether the phone has opened the code; in seconds.
    private const string LooksEvery = "4";

    public static void MapCodesPages(this IEndpointRouteBuilder app)
    {
        app.MapGet("/codes", Show).WithName("CodesPage").WithSummary("Tries a code with a phone").ExcludeFromDescription()
            .RequireAuthorization(Policies.Director);
        app.MapGet("/codes/{word}", Open).WithName("CodeOpenedPage").WithSummary("What a phone sees that opened the code")
            .ExcludeFromDescription().RequireRateLimiting(RateLimits.Scan);
    }

    private static RazorComponentResult<CodesPage> Show(Checklist checklist, CodeTest test, HttpResponse response)
    {
        response.Headers.CacheControl = "no-store";
        if (!test.IsOpened)
        {
            response.Headers["Refresh"] = LooksEvery;
        }

        return new RazorComponentResult<CodesPage>(new { Test = test, Items = checklist.OfStation() });
    }

    private static Results<RazorComponentResult<CodeOpenedPage>, RazorComponentResult<ErrorPage>> Open(
        string word, CodeTest test, HttpResponse response)
    {
        response.Headers.CacheControl = "no-store";
        return test.Open(word)
            ? new RazorComponentResult<CodeOpenedPage>()
            : ErrorAnswers.Page(
                StatusCodes.Status404NotFound, "This code is not the one that is tried now; scan the one on the director's screen.");
    }
}
