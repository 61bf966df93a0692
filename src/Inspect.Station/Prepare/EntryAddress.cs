using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Prepare;

/// <summary>An entry as the address of its pages names it.</summary>
/// <param name="Event">The event's short name.</param>
/// <param name="Entry">The bowler's number in it.</param>
public sealed record EntryAddress(string Event, string Entry)
{
    /// <summary>The event and the entry, or null where there is no such entry.</summary>
    public (Event Held, Entry Entry)? In(Events events) =>
        events.Find(Event) is { } held && events.FindEntry(held.Id, Entry) is { } found ? (held, found) : null;

    /// <summary>The page that says so.</summary>
    public RazorComponentResult<ErrorPage> NoEntry() =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no entry \"{Entry}\" in \"{Event}\".");

    /// <summary>Why readings cannot be given to another entry, in a sentence; null when they can.</summary>
    public static string? NoOther(Events events, Event held, string entry, string other) =>
        other.Length == 0 ? "Write the number of the entry whose ball it is."
        : events.FindEntry(held.Id, other) is not { } found ? $"There is no entry \"{other}\" in {held.Name}."
        : other == entry ? $"The readings are with entry {other} already."
        : found.Refusal;
}
