using Inspect.Station.Access;
using Inspect.Station.CommandLine;
using Inspect.Station.Prepare;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Home;

/// <summary>The first page.</summary>
public static class HomePages
{
    /// <summary>Adds the checklist of an event and the code that is tried.</summary>
    public static void AddHome(this IServiceCollection services)
    {
        services.AddSingleton<Checklist>();
        services.AddSingleton<CodeTest>();
    }

    /// <summary>Maps the first page.</summary>
    public static void MapHomePages(this IEndpointRouteBuilder app) =>
        app.MapGet("/", Show).WithName("HomePage").WithSummary("What the station does, and its links").ExcludeFromDescription();

    private static RazorComponentResult<HomePage> Show(SetUp setUp, Events events, Trial trial, Checklist checklist, TimeProvider time) =>
        new(new
        {
            NeedsSetUp = setUp.IsOpen(),
            Trial = trial,
            ToDo = checklist.OfStation(),
            Running = events.All().Where(held => held.Includes(held.DayAt(time.GetUtcNow()))).ToList(),
        });
}
