using Microsoft.AspNetCore.Http.Metadata;

namespace Inspect.Station.Web;

/// <summary>The JSON schema of something that is read or written member by member, under its name in the API description.</summary>
/// <param name="Name">Its name, one word.</param>
/// <param name="Text">The schema (draft 2020-12); it refers to others as <c>#/components/schemas/Name</c>.</param>
public sealed record ApiSchema(string Name, string Text);

/// <summary>What routes say of the bodies that they take and send.</summary>
public static class ApiBodies
{
    /// <summary>Says in the API description what a route takes.</summary>
    public static TBuilder Takes<TBuilder>(this TBuilder route, ApiSchema schema)
        where TBuilder : IEndpointConventionBuilder =>
            route.WithMetadata(schema, new AcceptsMetadata(["application/json"], typeof(string)));

    /// <summary>Says in the API description that a route sends a file of this media type.</summary>
    public static RouteHandlerBuilder Sends(this RouteHandlerBuilder route, string mediaType) =>
        route.Produces(StatusCodes.Status200OK, contentType: mediaType).WithMetadata(new SentFile(mediaType));
}

/// <summary>The media type of a file that a route sends.</summary>
internal sealed record SentFile(string MediaType);
