namespace Inspect.Station.Slip;

/// <summary>What slips need.</summary>
public static class SlipServices
{
    /// <summary>Adds the printing of slips.</summary>
    public static void AddSlip(this IServiceCollection services) => services.AddSingleton<SlipPrinter>();
}
