using Inspect.Station.Rulesets;
using Inspect.Station.Slip;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>What judging, recording and slips stand on.</summary>
public static class RecordServices
{
    /// <summary>Adds the editions, the records and their slips, and the key that signs the register.</summary>
    public static void AddRecord(this IServiceCollection services, RulesetBook book)
    {
        services.AddSingleton(book);
        services.AddSingleton(book.Library);
        services.AddSingleton<Inspections>();
        services.AddSingleton<InspectionLookup>();
        services.AddSingleton<SlipPrinter>();
        services.AddSingleton(provider => StationKey.Open(
            provider.GetRequiredService<DataFolder>().FullPath,
            provider.GetRequiredService<WriteGate>(),
            provider.GetRequiredService<TimeProvider>()).GetAwaiter().GetResult());
    }

    /// <summary>Makes or opens the signing key and draws a slip once, so that the first bowler does not wait for either.</summary>
    public static void WarmUp(IServiceProvider services)
    {
        services.GetRequiredService<StationKey>();
        SlipDocument.WarmUp();
    }
}
