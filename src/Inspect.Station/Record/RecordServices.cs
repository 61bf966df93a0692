namespace Inspect.Station.Record;

/// <summary>What recording and finding a record again stand on.</summary>
public static class RecordServices
{
    /// <summary>Adds recording, the records, their photographs and remarks, and the indexes by which they are found.</summary>
    public static void AddRecord(this IServiceCollection services)
    {
        services.AddSingleton(InspectionIndex.Index);
        services.AddSingleton(Tags.Index);
        services.AddSingleton(BallNames.Index);
        services.AddSingleton(RulingIndex.Index);
        services.AddSingleton(Photographs.Index);
        services.AddSingleton<Inspections>();
        services.AddSingleton<InspectionLookup>();
        services.AddSingleton<Photographs>();
        services.AddSingleton<Remarks>();
    }
}
