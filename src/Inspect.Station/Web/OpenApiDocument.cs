using Microsoft.AspNetCore.OpenApi;

namespace Inspect.Station.Web;

/// <summary>The OpenAPI description of the routes for programs, generated from the routes.</summary>
public static class OpenApiDocument
{
    /// <summary>Gives the document its title and leaves out the server: it is where the document was fetched from.</summary>
    public static void Configure(OpenApiOptions options) => options.AddDocumentTransformer((document, _, _) =>
    {
        document.Info.Title = "Inspect";
        document.Info.Version = "1";
        document.Info.Description = "Sheets to verdicts, records, slips and scans of a tournament's equipment inspection.";
        document.Servers?.Clear();
        return Task.CompletedTask;
    });

    /// <summary>Maps the document.</summary>
    public static void MapOpenApiDocument(this IEndpointRouteBuilder app) =>
        app.MapOpenApi("/openapi/v1.json").WithName("OpenApiDocument").WithSummary("The description of every route for programs");
}
