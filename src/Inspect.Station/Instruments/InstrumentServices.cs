namespace Inspect.Station.Instruments;

/// <summary>The services and pages of the instruments.</summary>
public static class InstrumentServices
{
    /// <summary>Adds the instruments and which are in use.</summary>
    public static void AddInstruments(this IServiceCollection services)
    {
        services.AddSingleton(Checks.Index);
        services.AddSingleton<InstrumentBook>();
        services.AddSingleton<InUse>();
        services.AddSingleton<WholeInstrument>();
    }

    /// <summary>Maps every page about instruments.</summary>
    public static void MapInstruments(this IEndpointRouteBuilder app)
    {
        app.MapInstrumentPages();
        app.MapStudyPages();
    }
}
