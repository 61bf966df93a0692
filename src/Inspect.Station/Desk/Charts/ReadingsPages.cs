using Inspect.Station.Access;
using Inspect.Station.Instruments;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Desk.Charts;

/// <summary>How an event's readings were read: a page for its director.</summary>
public static class ReadingsPages
{
    public static void MapReadingsPages(this IEndpointRouteBuilder app) =>
        app.MapGet("/desk/events/{event}/readings", Show).RequireAuthorization(Policies.Director).ExcludeFromDescription()
            .WithName("ReadingsPage").WithSummary("Whether readings heap on round values or just inside a limit");

    private static Results<RazorComponentResult<ReadingsPage>, RazorComponentResult<ErrorPage>> Show(
        string @event, Events events, InspectionLookup lookup, InstrumentBook book, People people) => events.Find(@event) is { } held
            ? new RazorComponentResult<ReadingsPage>(new
            {
                Event = held,
                Habits = ReadingHabits.Of(lookup.AllOf(held.Id), book.All()),
                NameOf = (Func<PersonId, string?>)people.NameOf,
            })
            : ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.");
}
