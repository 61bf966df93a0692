namespace Inspect.Station.Queue;

/// <summary>The order in which waiting bowlers are called.</summary>
/// <remarks>
/// Arrival decides. Those whose squad begins within 45 minutes, or began as recently, come before everyone else, the earliest squad first:
/// a bowler who is nearly due on the lanes cannot wait, and one who came early loses only minutes. The 45 minutes are this
/// project's convention, no source;
/// an inspector may call anyone out of order.
/// </remarks>
public static class CallingOrder
{
    /// <summary>How near the start of the squad a bowler goes ahead.</summary>
    public static readonly TimeSpan Near = TimeSpan.FromMinutes(45);

    /// <summary>Sorts places in the order of the calls.</summary>
    public static IReadOnlyList<Place> Of(IEnumerable<Place> waiting, DateTimeOffset now) =>
    [
        .. waiting
            .OrderBy(place => GoesAhead(place, now) ? place.Begins!.Value : DateTimeOffset.MaxValue)
            .ThenBy(place => place.WaitsSince)
            .ThenBy(place => place.Id),
    ];

    /// <summary>Whether a bowler goes ahead because the squad is near.</summary>
    public static bool GoesAhead(Place place, DateTimeOffset now) => place.Begins is { } begins && (begins - now).Duration() < Near;
}
