using Inspect.Station.Record;

namespace Inspect.Station.Measure;

/// <summary>What measuring at a table stands on.</summary>
public static class MeasureServices
{
    /// <summary>Adds unfinished sheets and the balls seen before; a sheet that was recorded is unfinished no more.</summary>
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
