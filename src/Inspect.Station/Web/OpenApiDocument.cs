using System.Text.Json.Serialization.Metadata;
using Inspect.Rules.Judging;
using Inspect.Sheets;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using Microsoft.OpenApi.Reader;

namespace Inspect.Station.Web;

/// <summary>The description of the programs' side of the station, generated from the routes and from the types and
/// schemas of what they read and write.</summary>
public static class OpenApiDocument
{
    /// <summary>A sheet, as judged and as recorded.</summary>
    public static readonly ApiSchema Sheet = new("Sheet", SheetSchema.Text);

    // What is not written from its own members has a schema beside its writer.
    private static readonly Dictionary<Type, ApiSchema> Written = new()
    {
        [typeof(Sheet)] = Sheet,
        [typeof(Verdict)] = new("Verdict", VerdictSchema.Text),
        [typeof(ProblemDetails)] = Problems.Schema,
        [typeof(HttpValidationProblemDetails)] = Problems.FaultsSchema,
    };

    /// <summary>Gives the document its title and leaves out the server, which is wherever the document was fetched from.</summary>
    public static void Configure(OpenApiOptions options)
    {
        options.CreateSchemaReferenceId = NameOf;
        options.AddOperationTransformer((operation, context, _) => Complete(operation, context));
        options.AddDocumentTransformer((document, context, _) =>
        {
            document.Info.Title = "Inspect";
            document.Info.Version = "1";
            document.Info.Description = "Sheets to verdicts, records, slips and scans of a tournament's equipment inspection.";
            document.Servers?.Clear();
            var schemas = (document.Components ??= new()).Schemas ??= new Dictionary<string, IOpenApiSchema>();
            foreach (var schema in schemas.Values.OfType<OpenApiSchema>())
            {
                LeaveOutNulls(schema);
            }

            var taken = context.DescriptionGroups.SelectMany(group => group.Items)
                .SelectMany(route => route.ActionDescriptor.EndpointMetadata.OfType<ApiSchema>());
            foreach (var schema in Written.Values.Concat(taken).DistinctBy(schema => schema.Name))
            {
                schemas[schema.Name] = Parse(schema, document);
            }

            return Task.CompletedTask;
        });
    }

    /// <summary>Maps the document.</summary>
    public static void MapOpenApiDocument(this IEndpointRouteBuilder app) =>
        app.MapOpenApi("/openapi/v1.json").WithName("OpenApiDocument").WithSummary("The description of every route for programs");

    private static string? NameOf(JsonTypeInfo type) => Written.TryGetValue(type.Type, out var schema) ? schema.Name
        : OpenApiOptions.CreateDefaultSchemaReferenceId(type) is { } name && name.EndsWith("Answer", StringComparison.Ordinal)
        ? name[..^"Answer".Length]
        : OpenApiOptions.CreateDefaultSchemaReferenceId(type);

    private static Task Complete(OpenApiOperation operation, OpenApiOperationTransformerContext context)
    {
        var metadata = context.Description.ActionDescriptor.EndpointMetadata;
        if (metadata.OfType<ApiSchema>().FirstOrDefault() is { } taken)
        {
            operation.RequestBody = new OpenApiRequestBody
            {
                Required = true,
                Content = new Dictionary<string, OpenApiMediaType>
                {
                    ["application/json"] = new OpenApiMediaType { Schema = new OpenApiSchemaReference(taken.Name, context.Document) },
                },
            };
        }

        // Whatever reads or writes the store says so when the store is damaged or its disk is full.
        (operation.Responses ??= []).TryAdd("503", new OpenApiResponse
        {
            Description = "Service Unavailable",
            Content = new Dictionary<string, OpenApiMediaType>
            {
                [Problems.MediaType] = new() { Schema = new OpenApiSchemaReference(Problems.Schema.Name, context.Document) },
            },
        });
        if (metadata.OfType<SentFile>().FirstOrDefault() is { } file && operation.Responses?["200"] is OpenApiResponse answer)
        {
            answer.Content = new Dictionary<string, OpenApiMediaType> { [file.MediaType] = new() };
        }

        return Task.CompletedTask;
    }

    // A member without a value is absent, and null is refused.
    private static void LeaveOutNulls(OpenApiSchema schema)
    {
        foreach (var (name, member) in schema.Properties?.ToList() ?? [])
        {
            // An object that may be absent is described as one of null and the object.
            if (member is OpenApiSchema { OneOf: { Count: 2 } either }
                && either.Any(one => one.Type == JsonSchemaType.Null)
                && either.FirstOrDefault(one => one.Type != JsonSchemaType.Null) is { } present)
            {
                schema.Properties![name] = present;
                schema.Required?.Remove(name);
            }

            if (member is OpenApiSchema { Type: { } type } own && type.HasFlag(JsonSchemaType.Null))
            {
                own.Type = type & ~JsonSchemaType.Null;
                schema.Required?.Remove(name);
            }
        }
    }

    private static OpenApiSchema Parse(ApiSchema schema, Microsoft.OpenApi.OpenApiDocument document) =>
        OpenApiModelFactory.Parse<OpenApiSchema>(
            schema.Text, OpenApiSpecVersion.OpenApi3_1, document, out var diagnostic, "json") is { } parsed && diagnostic.Errors.Count == 0
            ? parsed
            : throw new InvalidOperationException($"The schema \"{schema.Name}\" cannot be read: {string.Join(' ', diagnostic.Errors)}");
}
