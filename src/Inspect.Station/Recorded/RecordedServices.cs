namespace Inspect.Station.Recorded;

/// <summary>What showing a recorded inspection stands on, and all of its addresses.</summary>
public static class RecordedServices
{
    /// <summary>Adds what a page of a recorded inspection is gathered by.</summary>
    public static void AddRecorded(this IServiceCollection services) => services.AddSingleton<InspectionView>();

    /// <summary>Maps recorded inspections, for people and for programs, and their photographs.</summary>
    public static void MapRecorded(this IEndpointRouteBuilder app)
    {
        app.MapInspectionsApi();
        app.MapInspectionPages();
        app.MapPhotographPages();
    }
}
