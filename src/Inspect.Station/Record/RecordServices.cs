namespace Inspect.Station.Record;

/// <summary>What recording and finding a record again stand on.</summary>
public static class RecordServices
{
    /// <summary>Adds recording, the records, their photographs and remarks.</summary>
    public static void AddRecord(this IServiceCollection services)
    {
        services.AddSingleton<Inspections>();
        services.AddSingleton<InspectionLookup>();
        services.AddSingleton<Photographs>();
        services.AddSingleton<Remarks>();
    }
}
