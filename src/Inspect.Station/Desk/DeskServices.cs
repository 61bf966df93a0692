namespace Inspect.Station.Desk;

/// <summary>What the director's desk needs.</summary>
public static class DeskServices
{
    /// <summary>Adds the search and the stories of balls.</summary>
    public static void AddDesk(this IServiceCollection services)
    {
        services.AddSingleton<FindReader>();
        services.AddSingleton<Finder>();
        services.AddSingleton<BallStories>();
        services.AddSingleton<EventReplay>();
    }
}
