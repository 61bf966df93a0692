using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.ResponseCompression;

namespace Inspect.Station.Web;

/// <summary>What every page and every route shares, and the addresses that belong to no step.</summary>
public static class WebServices
{
    /// <summary>Adds pages, JSON, problems, limits, the API description and the public address.</summary>
    public static void AddWeb(this IServiceCollection services)
    {
        services.AddRazorComponents();
        services.AddProblemDetails(options => options.CustomizeProblemDetails = made =>
            made.ProblemDetails.Extensions = new Dictionary<string, object?> { ["requestId"] = made.HttpContext.TraceIdentifier });
        services.AddStrictJson();
        services.AddRateLimits();
        // Also under HTTPS: a page that another site asks for comes without the cookie, so its length tells that site nothing.
        services.AddResponseCompression(options =>
        {
            options.EnableForHttps = true;
            options.MimeTypes = [.. ResponseCompressionDefaults.MimeTypes, "image/svg+xml", "application/problem+json"];
        });
        services.AddSingleton<PageFiles>();
        services.AddSingleton<PublicAddress>();
        services.AddSingleton<Health>();
        services.AddOpenApi("v1", OpenApiDocument.Configure);
    }

    /// <summary>Maps the first page.</summary>
    public static void MapHome(this IEndpointRouteBuilder app) =>
        app.MapGet("/", (SetUp setUp, Events events, TimeProvider time) => new RazorComponentResult<HomePage>(new
        {
            NeedsSetUp = setUp.IsOpen(),
            Running = events.All().Where(held => held.Includes(held.DayAt(time.GetUtcNow()))).ToList(),
        }))
            .WithName("HomePage").WithSummary("What this is and where to go").ExcludeFromDescription();
}
