namespace Inspect.Station.Desk.Charts;

/// <summary>What the charts of an event need.</summary>
public static class ChartsServices
{
    /// <summary>Adds the figures of events.</summary>
    public static void AddCharts(this IServiceCollection services) => services.AddSingleton<EventFigures>();
}
