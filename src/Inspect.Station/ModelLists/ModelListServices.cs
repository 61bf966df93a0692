namespace Inspect.Station.ModelLists;

/// <summary>The services that keep lists of models.</summary>
public static class ModelListServices
{
    /// <summary>Adds the lists and what events read of them.</summary>
    public static void AddModelLists(this IServiceCollection services)
    {
        services.AddSingleton<ListedModels>();
        services.AddSingleton<EventLists>();
    }
}
