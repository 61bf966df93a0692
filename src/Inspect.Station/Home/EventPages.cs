using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Home;

/// <summary>The pages of the events and their entries.</summary>
public static class EventPages
{
    public static void MapEventPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        pages.MapGet("", List).WithName("EventsPage").WithSummary("The events of this station");
        pages.MapGet("{event}", Show).WithName("EventPage").WithSummary("One event with its squads and entries");
    }

    private static RazorComponentResult<EventsPage> List(Events events, EventChanges changes) =>
        new(new { Events = events.All(), Deleted = changes.OfDeleted() });

    private static Results<RazorComponentResult<EventPage>, RazorComponentResult<ErrorPage>> Show(
        string @event, Events events, EventChanges changes, EditionLibrary library, Checklist checklist, TimeProvider time,
        string? find = null, string? page = null)
    {
        if (events.Find(@event) is not { } found)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.");
        }

        var (all, now) = (events.EntriesOf(found.Id), time.GetUtcNow());
        var sought = find?.Trim() ?? "";
        return PageOf.Of(sought.Length == 0 ? all : [.. all.Where(entry => Fits(entry, sought))], page) is { } entries
            ? new RazorComponentResult<EventPage>(new
            {
                Event = found,
                Entries = entries,
                All = all,
                Find = sought,
                Changes = changes.OfEvent(found.Id),
                Missing = EventRules.Missing(found, library),
                HasBegun = checklist.HasBegun(found),
                Names = checklist.OfNames(found, now),
                ToDo = found.To < found.DayAt(now) ? [] : checklist.Of(found, all.Count(entry => !entry.IsWithdrawn), now),
            })
            : ErrorAnswers.Page(StatusCodes.Status404NotFound, PageOf.NoSuchPage(page));
    }

    // A number, a part of a name, or a whole squad.
    private static bool Fits(Entry entry, string sought) => entry.Number.StartsWith(sought, StringComparison.OrdinalIgnoreCase)
        || string.Equals(entry.Squad, sought, StringComparison.OrdinalIgnoreCase)
        || (entry.Bowler is { } name && NameFold.Matches(sought, name));
}
