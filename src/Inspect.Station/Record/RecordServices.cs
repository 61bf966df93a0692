namespace Inspect.Station.Record;

/// <summary>The services for recording inspections and finding them again.</summary>
public static class RecordServices
{
    /// <summary>Adds recording, the records, their photographs and remarks, and their indexes.</summary>
    public static void AddRecord(this IServiceCollection services)
    {
        services.AddSingleton(InspectionIndex.Index);
        services.AddSingleton(Tags.Index);
        services.AddSingleton(BallNames.Index);
        services.AddSingleton(RulingIndex.Index);
        services.AddSingleton(SpotCheckIndex.Index);
        services.AddSingleton(FreezeAlert.Index);
        services.AddSingleton(new AfterRecording(FreezeAlert.Recorded));
        services.AddSingleton(Photographs.Index);
        services.AddSingleton<Inspections>();
        services.AddSingleton<InspectionLookup>();
        services.AddSingleton<Photographs>();
        services.AddSingleton<Remarks>();
        services.AddSingleton<SlipPrints>();
        services.AddSingleton<EarlierBalls>();
        services.AddSingleton<EnteredBalls>();
        services.AddSingleton<EntryCards>();
        services.AddSingleton<SaidByBowler>();
    }
}
