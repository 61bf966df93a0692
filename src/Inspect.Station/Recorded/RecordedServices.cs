namespace Inspect.Station.Recorded;

/// <summary>What showing a recorded inspection stands on.</summary>
public static class RecordedServices
{
    /// <summary>Adds what a page of a recorded inspection is gathered by.</summary>
    public static void AddRecorded(this IServiceCollection services) => services.AddSingleton<InspectionView>();
}
