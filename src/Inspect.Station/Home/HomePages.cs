using Inspect.Station.Access;
using Inspect.Station.CommandLine;
using Inspect.Station.Prepare;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Home;

/// <summary>The first page.</summary>
public static class HomePages
{
    /// <summary>Maps the first page.</summary>
    public static void MapHomePages(this IEndpointRouteBuilder app) =>
        app.MapGet("/", (SetUp setUp, Events events, Trial trial, TimeProvider time) => new RazorComponentResult<HomePage>(new
        {
            NeedsSetUp = setUp.IsOpen(),
            Trial = trial,
            Running = events.All().Where(held => held.Includes(held.DayAt(time.GetUtcNow()))).ToList(),
        }))
            .WithName("HomePage").WithSummary("What the station does, and its links").ExcludeFromDescription();
}
