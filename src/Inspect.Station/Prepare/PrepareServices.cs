namespace Inspect.Station.Prepare;

/// <summary>What the station needs to know before the first ball.</summary>
public static class PrepareServices
{
    /// <summary>Adds the events and the bowlers known from earlier ones.</summary>
    public static void AddPrepare(this IServiceCollection services)
    {
        services.AddSingleton(EventTerms.Confirmations);
        services.AddSingleton<Events>();
        services.AddSingleton<KnownBowlers>();
    }
}
