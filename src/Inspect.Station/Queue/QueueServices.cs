using Inspect.Station.Record;

namespace Inspect.Station.Queue;

/// <summary>What finding bowlers and calling them to a table need.</summary>
public static class QueueServices
{
    /// <summary>Adds the search, the queue and what an event sets for its tables.</summary>
    public static void AddQueue(this IServiceCollection services)
    {
        services.AddSingleton<EventTables>();
        services.AddSingleton<BowlerSearch>();
        services.AddSingleton<BowlerQueue>();
        services.AddSingleton<Calls>();
        services.AddSingleton(new AfterRecording(Calls.Recorded));
    }
}
