namespace Inspect.Station.Storage;

/// <summary>The services of the store.</summary>
public static class StorageServices
{
    /// <summary>Adds the folder, its database, the write gate and the signing key. The caller disposes the folder.</summary>
    public static void AddStorage(this IServiceCollection services, DataFolder folder)
    {
        services.AddSingleton(folder);
        services.AddSingleton(_ => new Database(folder.DatabaseFile));
        services.AddSingleton<WriteGate>();
        services.AddSingleton(station => StationKey
            .Open(folder.FullPath, station.GetRequiredService<WriteGate>(), station.GetRequiredService<TimeProvider>())
            .GetAwaiter().GetResult());
    }
}
