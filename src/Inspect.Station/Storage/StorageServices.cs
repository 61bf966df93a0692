namespace Inspect.Station.Storage;

/// <summary>The services of the store.</summary>
public static class StorageServices
{
    /// <summary>Adds the folder, its database, the write gate and the signing key. The caller disposes the folder.</summary>
    /// <param name="services">The services to add to.</param>
    /// <param name="folder">The folder.</param>
    /// <param name="acceptsLoss">Whether a store that lacks something is to go on without it.</param>
    public static void AddStorage(this IServiceCollection services, DataFolder folder, bool acceptsLoss)
    {
        services.AddSingleton(folder);
        services.AddSingleton(_ => new Database(folder.DatabaseFile));
        services.AddSingleton(station => StoreWitness.Open(folder.FullPath, acceptsLoss, station.GetRequiredService<TimeProvider>()));
        services.AddSingleton(RegisterLoss.Index);
        services.AddSingleton<StoreState>();
        services.AddSingleton<WriteGate>();
        services.AddHostedService<BackgroundCheck>();
        services.AddSingleton(station => StationKey
            .Open(folder.FullPath, station.GetRequiredService<WriteGate>(), station.GetRequiredService<TimeProvider>(),
                station.GetRequiredService<StoreWitness>())
            .GetAwaiter().GetResult());
    }
}
