namespace Inspect.Station.Import;

/// <summary>The services that take lists of entries.</summary>
public static class ImportServices
{
    /// <summary>Adds the files that are held and what is remembered of their heads.</summary>
    public static void AddImport(this IServiceCollection services)
    {
        services.AddSingleton<HeldFiles>();
        services.AddSingleton<RememberedHeads>();
        services.AddSingleton<EntryImport>();
        services.AddSingleton<Imports>();
        services.AddSingleton<ImportRuns>();
    }
}
