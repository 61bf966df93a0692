using System.Net;
using System.Text;
using System.Text.Json;
using Inspect.Station.Tests.Ground;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Web;

/// <summary>What every route keeps to, whoever adds it.</summary>
public class ConventionTests(SharedStation shared) : IClassFixture<SharedStation>
{
    // The description itself refuses nothing.
    private const string Description = "/openapi/v1.json";

    private static readonly string[] Rubbish =
        [
            "", "{", "null", "[]", "0", "\"rubbish\"", "{\"rubbish\":1}", "{\"\":{}}", "[[[[[[",
            "{\"sheet\":{\"holes\":[{\"depth\":{}}]},\"rubbish\":[]}", "\u0000"];

    [Fact]
    public async Task EveryRoute_HasANameOfItsOwnAndASummary()
    {
        var station = shared.Station;
        var routes = Routes(station);

        Assert.NotEmpty(routes);
        Assert.All(routes, route =>
        {
            Assert.True(route.Metadata.GetMetadata<IEndpointNameMetadata>() is not null, $"{route.DisplayName} has no name.");
            Assert.True(route.Metadata.GetMetadata<IEndpointSummaryMetadata>() is not null, $"{route.DisplayName} has no summary.");
        });
        var names = routes.Select(route => route.Metadata.GetMetadata<IEndpointNameMetadata>()!.EndpointName).ToList();
        Assert.Equal(names.Distinct(StringComparer.OrdinalIgnoreCase), names);
    }

    /// <summary>What reads a request for its handler is compiled with each route: most of what a start costs.</summary>
    [Fact]
    public async Task EveryRoute_IsMadeOnce()
    {
        Endpoint? taken = null;
        await using var station = new StationFixture();
        await using var watched = station.WithWebHostBuilder(builder => builder.ConfigureServices(services =>
            services.AddSingleton<IStartupFilter>(new Watched(http => taken = http.GetEndpoint()))));
        using var client = watched.CreateClient();

        using var answer = await client.GetAsync("/sign-in");

        Assert.Contains(watched.Services.GetRequiredService<EndpointDataSource>().Endpoints, each => ReferenceEquals(each, taken));
    }

    [Fact]
    public async Task EveryRouteForPrograms_SaysHowItRefuses()
    {
        var station = shared.Station;

        Assert.All(RoutesForPrograms(station).Where(route => route.RoutePattern.RawText != Description), route =>
        {
            var statuses = route.Metadata.OfType<IProducesResponseTypeMetadata>().Select(each => each.StatusCode).ToList();
            Assert.True(statuses.Exists(status => status >= 400), $"{route.DisplayName} names no problem.");
            if (route.Metadata.GetMetadata<IAuthorizeData>() is not null)
            {
                Assert.True(statuses.Contains(401) && statuses.Contains(403), $"{route.DisplayName} does not say 401 and 403.");
            }

            if (route.Metadata.GetMetadata<IAcceptsMetadata>() is not null)
            {
                Assert.True(statuses.Contains(400) && statuses.Contains(415), $"{route.DisplayName} does not say 400 and 415.");
            }
        });
    }

    [Fact]
    public async Task EveryRequestType_IsPublic()
    {
        var station = shared.Station;
        var types = Routes(station).Select(route => route.Metadata.GetMetadata<IAcceptsMetadata>()?.RequestType).OfType<Type>();

        Assert.All(types, type => Assert.True(type.IsVisible, $"{type} is not public."));
    }

    /// <summary>A handler is compiled at its first request: one whose parameters cannot be read is found here and not in a hall.</summary>
    [Fact]
    public void EveryRoute_CanBeMadeReady()
    {
        var handlers = Routes(shared.Station).Select(route => route.Metadata.GetMetadata<MadeReady>()).OfType<MadeReady>().ToList();

        Assert.InRange(handlers.Count, 100, int.MaxValue);
        Assert.All(handlers, each => Assert.NotNull(each.Handler.Value));
    }

    [Fact]
    public async Task EveryRouteForPrograms_SentRubbish_RefusesWithAProblem()
    {
        var station = shared.Station;
        foreach (var signIn in (string?[])[null, "director"])
        {
            using var client = await station.Client(signIn);
            foreach (var (method, path) in ChangingRoutes(station))
            {
                foreach (var rubbish in Rubbish)
                {
                    using var request = new HttpRequestMessage(new HttpMethod(method), path);
                    request.Content = new StringContent(rubbish, Encoding.UTF8, "application/json");
                    using var answer = await client.SendAsync(request);

                    Assert.True(
                        answer.StatusCode is >= HttpStatusCode.BadRequest and < HttpStatusCode.InternalServerError,
                        $"{method} {path} with {rubbish}: {answer.StatusCode}");
                    Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
                    using var problem = JsonDocument.Parse(await answer.Content.ReadAsStringAsync());
                    Assert.Equal((int)answer.StatusCode, problem.RootElement.GetProperty("status").GetInt32());
                }
            }
        }
    }

    private static List<RouteEndpoint> Routes(StationFixture station) =>
        [.. station.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()];

    private static IEnumerable<RouteEndpoint> RoutesForPrograms(StationFixture station) =>
        Routes(station).Where(route => route.Metadata.GetMetadata<IExcludeFromDescriptionMetadata>() is not { ExcludeFromDescription: true }
            || route.RoutePattern.RawText!.StartsWith("/api", StringComparison.Ordinal));

    private static IEnumerable<(string Method, string Path)> ChangingRoutes(StationFixture station) =>
        from route in RoutesForPrograms(station)
        from method in route.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods ?? []
        where method is "POST" or "PUT" or "PATCH"
        select (method, Filled(route.RoutePattern.RawText!));

    /// <summary>Looks at a request once it was answered.</summary>
    private sealed class Watched(Action<HttpContext> look) : IStartupFilter
    {
        public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
        {
            app.Use(async (HttpContext http, RequestDelegate rest) =>
            {
                await rest(http);
                look(http);
            });
            next(app);
        };
    }

    private static string Filled(string pattern) =>
        System.Text.RegularExpressions.Regex.Replace(pattern, @"\{[^}]*\}", "rubbish");
}
