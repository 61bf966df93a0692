namespace Inspect.Station.Instruments;

/// <summary>What keeping instruments stands on, and all of its pages.</summary>
public static class InstrumentServices
{
    /// <summary>Adds the instruments and what is in use.</summary>
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
