using System.Reflection;
using Microsoft.Extensions.Options;

namespace Inspect.Station;

/// <summary>Maps routes whose handlers are made ready at their first request, and not all of them at the start.</summary>
/// <remarks>
/// Making a handler ready (binding its parameters, writing its result) is compiled at run time, about 2 ms each; for all routes that is two
/// thirds of what a station in a test takes to start. What a route says of itself is still known at the start: its metadata are those that
/// the framework infers. These methods stand in the root namespace, so that every <c>Map…Pages</c> and <c>Map…Api</c> finds them before
/// the framework's.
/// </remarks>
internal static class LazyRoutes
{
    /// <summary>Maps a GET route.</summary>
    public static RouteHandlerBuilder MapGet(this IEndpointRouteBuilder app, string pattern, Delegate handler) =>
        Map(app, pattern, HttpMethods.Get, handler);

    /// <summary>Maps a POST route.</summary>
    public static RouteHandlerBuilder MapPost(this IEndpointRouteBuilder app, string pattern, Delegate handler) =>
        Map(app, pattern, HttpMethods.Post, handler);

    /// <summary>Maps a DELETE route.</summary>
    public static RouteHandlerBuilder MapDelete(this IEndpointRouteBuilder app, string pattern, Delegate handler) =>
        Map(app, pattern, HttpMethods.Delete, handler);

    private static RouteHandlerBuilder Map(IEndpointRouteBuilder app, string pattern, string method, Delegate handler)
    {
        var route = app.MapMethods(pattern, [method], _ => Task.CompletedTask);
        route.Add(endpoint =>
        {
            // Less specific than what is said of the route afterwards, as with a handler that is made ready at once.
            endpoint.Metadata.Add(handler.Method);
            var options = new RequestDelegateFactoryOptions
            {
                ServiceProvider = app.ServiceProvider,
                RouteParameterNames = ((RouteEndpointBuilder)endpoint).RoutePattern.Parameters.Select(parameter => parameter.Name).ToList(),
                ThrowOnBadRequest = app.ServiceProvider.GetRequiredService<IOptions<RouteHandlerOptions>>().Value.ThrowOnBadRequest,
                DisableInferBodyFromParameters = method != HttpMethods.Post,
                EndpointBuilder = endpoint,
            };
            var inferred = RequestDelegateFactory.InferMetadata(handler.Method, options);
            foreach (var attribute in handler.Method.GetCustomAttributes())
            {
                endpoint.Metadata.Add(attribute);
            }

            var ready = new Lazy<RequestDelegate>(() => RequestDelegateFactory.Create(handler, options, inferred).RequestDelegate);
            endpoint.Metadata.Add(new MadeReady(ready));
            endpoint.RequestDelegate = http => ready.Value(http);
        });
        return new RouteHandlerBuilder([route]);
    }
}

/// <summary>A route's handler, made ready when it is asked for: a test asks for every one.</summary>
internal sealed record MadeReady(Lazy<RequestDelegate> Handler);
