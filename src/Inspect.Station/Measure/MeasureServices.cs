using Inspect.Station.Record;

namespace Inspect.Station.Measure;

/// <summary>What measuring at a table needs.</summary>
public static class MeasureServices
{
    /// <summary>Adds unfinished sheets and the balls of earlier events. A sheet is removed from the unfinished ones
    /// when it is recorded.</summary>
    public static void AddMeasure(this IServiceCollection services)
    {
        services.AddSingleton<UnfinishedSheets>();
        services.AddSingleton<UnfinishedRows>();
        services.AddSingleton<EarlierBalls>();
        services.AddSingleton<FormOpening>();
        services.AddSingleton<FormJudge>();
        services.AddSingleton(new AfterRecording(UnfinishedSheets.Recorded));
    }
}
