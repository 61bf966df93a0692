namespace Inspect.Station.Recorded;

/// <summary>The services of the page of a recorded inspection.</summary>
public static class RecordedServices
{
    /// <summary>Adds the view of a recorded inspection.</summary>
    public static void AddRecorded(this IServiceCollection services) => services.AddSingleton<InspectionView>();
}
