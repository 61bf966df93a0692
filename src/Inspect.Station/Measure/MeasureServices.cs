using Inspect.Station.Record;

namespace Inspect.Station.Measure;

/// <summary>What measuring at a table needs.</summary>
public static class MeasureServices
{
    /// <summary>Adds unfinished sheets. A sheet is removed from them when it is recorded.</summary>
    public static void AddMeasure(this IServiceCollection services)
    {
        services.AddSingleton<UnfinishedSheets>();
        services.AddSingleton<UnfinishedRows>();
        services.AddSingleton<FormOpening>();
        services.AddSingleton<FormJudge>();
        services.AddSingleton(new AfterRecording(UnfinishedSheets.Recorded));
    }
}
