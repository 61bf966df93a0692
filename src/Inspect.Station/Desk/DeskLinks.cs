using Inspect.Station.Prepare;

namespace Inspect.Station.Desk;

/// <summary>The links from the desk, one row for each page.</summary>
public static class DeskLinks
{
    /// <summary>Label and address of each, for the event that is shown or runs today.</summary>
    public static IEnumerable<(string Label, string Href)> For(Event? held)
    {
        if (held is not null)
        {
            yield return ($"Event {held.Id}", $"/events/{held.Id}");
            yield return ("Charts", $"/desk/events/{held.Id}/charts");
            yield return ("Open list", $"/desk/events/{held.Id}/open");
            yield return ("Spot checks", $"/events/{held.Id}/spot-checks");
            yield return ("Readings", $"/desk/events/{held.Id}/readings");
            yield return ("Closing reports", $"/desk/events/{held.Id}/reports");
        }

        yield return ("Register", "/desk/register");
        yield return ("Judge again", held is null ? "/desk/replay" : $"/desk/replay?event={held.Id}");
    }
}
