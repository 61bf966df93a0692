using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.ResponseCompression;

namespace Inspect.Station.Web;

/// <summary>The services that every page and every route uses.</summary>
public static class WebServices
{
    /// <summary>Adds pages, JSON, problems, limits, the API description and the public address.</summary>
    /// <param name="services">The services to add to.</param>
    /// <param name="publicUrl">The address at which others reach this station; null when it is the one it listens on.</param>
    /// <param name="urls">The addresses the station listens on, separated by semicolons.</param>
    public static void AddWeb(this IServiceCollection services, Uri? publicUrl, string urls)
    {
        services.AddRazorComponents();
        services.AddProblemDetails(options => options.CustomizeProblemDetails = made =>
            made.ProblemDetails.Extensions = new Dictionary<string, object?> { ["requestId"] = made.HttpContext.TraceIdentifier });
        services.AddStrictJson();
        services.AddRateLimits();
        // Also for HTTPS: a page requested by another site comes without the cookie, so its length tells that site nothing.
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
