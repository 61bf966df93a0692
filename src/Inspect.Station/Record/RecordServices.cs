using Inspect.Station.Desk.Charts;
using Inspect.Station.Rulesets;
using Inspect.Station.Slip;

namespace Inspect.Station.Record;

/// <summary>What judging, recording and slips stand on.</summary>
public static class RecordServices
{
    /// <summary>Adds the editions, the records and their slips.</summary>
    public static void AddRecord(this IServiceCollection services, RulesetBook book)
    {
        services.AddSingleton(book);
        services.AddSingleton(book.Editions);
        services.AddSingleton<Inspections>();
        services.AddSingleton<InspectionLookup>();
        services.AddSingleton<InspectionView>();
        services.AddSingleton<Photographs>();
        services.AddSingleton<Remarks>();
        services.AddSingleton<SlipPrinter>();
        services.AddSingleton<EventFigures>();
        services.AddSingleton<Measure.UnfinishedSheets>();
        services.AddSingleton<Measure.EarlierBalls>();
    }
}
