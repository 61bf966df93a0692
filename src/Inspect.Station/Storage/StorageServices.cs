namespace Inspect.Station.Storage;

/// <summary>The store as the station's steps ask for it.</summary>
public static class StorageServices
{
    /// <summary>Adds the folder, the database in it, its one way to write, and the signing key. The folder stays the caller's to let go of.</summary>
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
