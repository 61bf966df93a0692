namespace Inspect.Station.Prepare;

/// <summary>The services that prepare an event.</summary>
public static class PrepareServices
{
    /// <summary>Adds the events, their changes, and the bowlers known from earlier ones.</summary>
    public static void AddPrepare(this IServiceCollection services)
    {
        services.AddSingleton(EventTerms.Confirmations);
        services.AddSingleton<Events>();
        services.AddSingleton<EventChanges>();
        services.AddSingleton<KnownBowlers>();
    }
}
