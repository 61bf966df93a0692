using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.ResponseCompression;

namespace Inspect.Station.Web;

/// <summary>What every page and every route shares.</summary>
public static class WebServices
{
    /// <summary>Adds pages, JSON, problems, limits, the API description and the public address.</summary>
    /// <param name="services">The services added to.</param>
    /// <param name="publicUrl">The address under which others reach this station; null where it is the one that is bound.</param>
    /// <param name="urls">What the station listens on, with semicolons between.</param>
    public static void AddWeb(this IServiceCollection services, Uri? publicUrl, string urls)
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
        services.AddSingleton(station => new PublicAddress(publicUrl, urls, station.GetRequiredService<IServer>()));
        services.AddSingleton<Health>();
        services.AddOpenApi("v1", OpenApiDocument.Configure);
    }
}
