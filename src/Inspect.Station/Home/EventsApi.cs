using System.Globalization;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Home;

/// <summary>An event as programs see it.</summary>
/// <param name="Event">The short name.</param>
/// <param name="Name">The name in full.</param>
/// <param name="From">The first day of play, yyyy-mm-dd at the venue.</param>
/// <param name="To">The last day of play, yyyy-mm-dd at the venue.</param>
/// <param name="TimeZone">The venue's time zone by its IANA name.</param>
/// <param name="Authority">The body whose rules apply.</param>
/// <param name="Squads">The squads in the order in which they begin.</param>
public sealed record EventAnswer(
    string Event, string Name, DateOnly From, DateOnly To, string TimeZone, string Authority, IReadOnlyList<SquadAnswer> Squads);

/// <summary>A squad as programs see it.</summary>
/// <param name="Squad">What it is called within the event.</param>
/// <param name="Starts">When it begins, yyyy-mm-ddThh:mm at the venue.</param>
public sealed record SquadAnswer(string Squad, string Starts);

/// <summary>A bowler in an event as programs see it.</summary>
/// <param name="Entry">The bowler's number in the event.</param>
/// <param name="Bowler">The bowler's name; absent once struck.</param>
/// <param name="Squad">The squad, in answers to a search; absent when not yet drawn.</param>
/// <param name="Withdrawn">True when no ball of this entry is measured any more; absent otherwise.</param>
public sealed record EntryAnswer(string Entry, string? Bowler, string? Squad, bool? Withdrawn);

/// <summary>The routes for programs about events and entries.</summary>
public static class EventsApi
{
    public static void MapEventsApi(this IEndpointRouteBuilder app)
    {
        var events = app.MapGroup("/api/events").RequireAuthorization(Policies.Inspector).WithTags("Events");
        events.MapGet("", List).WithName("ListEvents").WithSummary("Every event, newest first").MayRefuse(401, 403);
        events.MapGet("{event}/entries", ListEntries).WithName("ListEntries")
            .WithSummary("The entries of an event, by number; with the parameter bowler, only those that fit a number, a name or a scan")
            .MayRefuse(401, 403, 404);
    }

    private static Ok<EventAnswer[]> List(Events events) => TypedResults.Ok(events.All().Select(Answer).ToArray());

    private static Results<Ok<EntryAnswer[]>, ProblemHttpResult> ListEntries(
        string @event, Events events, BowlerSearch search, string? bowler = null)
    {
        if (events.Find(@event) is not { } found)
        {
            return Problems.Refused(StatusCodes.Status404NotFound, $"There is no event \"{@event}\": /api/events lists them.");
        }

        var entries = bowler is null ? events.EntriesOf(found.Id) : search.Find(found, bowler).Matches;
        return TypedResults.Ok(
            entries.Select(entry => new EntryAnswer(
                entry.Number, entry.Bowler, bowler is null ? null : entry.Squad, entry.IsWithdrawn ? true : null)).ToArray());
    }

    private static EventAnswer Answer(Event found) => new(
        found.Id,
        found.Name,
        found.From,
        found.To,
        found.TimeZone,
        found.Authority,
        [.. found.Squads.Select(
            squad => new SquadAnswer(squad.Name, squad.Starts.ToString("yyyy-MM-ddTHH:mm", CultureInfo.InvariantCulture)))]);
}
