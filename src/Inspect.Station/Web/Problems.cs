using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Inspect.Station.Web;

/// <summary>The problem documents (RFC 9457) that programs get.</summary>
public static class Problems
{
    /// <summary>The media type of a problem document.</summary>
    public const string MediaType = "application/problem+json";

    /// <summary>What any refusal says.</summary>
    public static readonly ApiSchema Schema = new("Problem", $$"""
        {
          "type": "object", "description": "Why a request was refused (RFC 9457).",
          "required": ["title", "status", "detail", "requestId"], "additionalProperties": false,
          "properties": { {{Members}} }
        }
        """);

    /// <summary>What the refusal of a request says whose members cannot be used.</summary>
    public static readonly ApiSchema FaultsSchema = new("Faults", $$"""
        {
          "type": "object", "description": "What is wrong with a request (RFC 9457).",
          "required": ["title", "status", "detail", "requestId", "errors"], "additionalProperties": false,
          "properties": {
            {{Members}},
            "errors": {
              "type": "object", "description": "For the path of each bad member, such as holes[0].depth, what is wrong and what would be right.",
              "additionalProperties": { "type": "array", "items": { "type": "string" } }
            }
          }
        }
        """);

    private const string Members = """
        "type": { "type": "string" }, "title": { "type": "string" }, "status": { "type": "integer" },
        "detail": { "type": "string", "description": "One plain sentence." },
        "requestId": { "type": "string", "description": "Stands beside the lines of this request in the station's log." }
        """;

    /// <summary>A request whose members cannot be used: 400, each bad member's path mapped to its messages.</summary>
    public static ValidationProblem Unusable(Faults faults) =>
        TypedResults.ValidationProblem(
            faults.ToErrors(), title: "The request cannot be used.",
            detail: "The member errors says for each place what is wrong and what would be right.");

    /// <summary>Any other refusal, with one plain sentence.</summary>
    public static ProblemHttpResult Refused(int status, string sentence) =>
        TypedResults.Problem(statusCode: status, title: StatusWords.Title(status), detail: sentence);

    /// <summary>A body that is not JSON, or not of the expected form, with the path where the fault was found.</summary>
    public static ValidationProblem Unreadable(JsonException? fault)
    {
        var faults = new Faults();
        var path = fault?.Path is not { Length: > 1 } noticed ? Faults.Whole : noticed.StartsWith("$.", StringComparison.Ordinal)
            ? noticed[2..] : noticed;
        faults.Add(path, path == Faults.Whole
            ? "The body is not JSON of the expected form: see /openapi/v1.json for what this route takes."
            : $"\"{path}\" is unknown here, is given twice, or has the wrong type: see /openapi/v1.json for what this route takes.");
        return Unusable(faults);
    }

    /// <summary>Says in the API description that a route may answer with these problems.</summary>
    public static TBuilder MayRefuse<TBuilder>(this TBuilder route, params ReadOnlySpan<int> statuses)
        where TBuilder : IEndpointConventionBuilder
    {
        foreach (var status in statuses)
        {
            var type = status == StatusCodes.Status400BadRequest ? typeof(HttpValidationProblemDetails) : typeof(ProblemDetails);
            route.WithMetadata(new ProducesResponseTypeMetadata(status, type, [MediaType]));
        }

        return route;
    }
}
