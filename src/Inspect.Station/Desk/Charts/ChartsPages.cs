using System.Globalization;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Desk.Charts;

/// <summary>An event in charts for its director, each with a table.</summary>
public static class ChartsPages
{
    public static void MapChartsPages(this IEndpointRouteBuilder app) =>
        app.MapGet("/desk/events/{event}/charts", Show).RequireAuthorization(Policies.Director).ExcludeFromDescription()
            .WithName("ChartsPage").WithSummary("An event in charts");

    private static Results<RazorComponentResult<ChartsPage>, RazorComponentResult<ErrorPage>> Show(
        string @event, Events events, EventFigures figures, string? day = null, string? squad = null, string? inspector = null)
    {
        if (events.Find(@event) is not { } held)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.");
        }

        var asked = new ChartsAsked(day ?? "", squad ?? "", inspector ?? "");
        var inspectors = figures.Inspectors(held);
        var faults = asked.Check(held, inspectors);
        return new RazorComponentResult<ChartsPage>(new
        {
            Event = held,
            Asked = asked,
            Inspectors = inspectors,
            Faults = faults,
            Charts = faults.AreNone
                ? EventCharts.Of(figures.Read(held, asked), held, inspectors.ToDictionary(one => one.Id, one => one.Name))
                : null,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }
}

/// <summary>Which inspections of the event the charts show. An empty choice leaves nothing out.</summary>
/// <param name="Day">A day of play, yyyy-mm-dd.</param>
/// <param name="Squad">A squad of the event.</param>
/// <param name="Inspector">The opaque id of the person who recorded.</param>
public sealed record ChartsAsked(string Day, string Squad, string Inspector)
{
    /// <summary>Whether everything is shown.</summary>
    public bool IsEverything => Day.Length + Squad.Length + Inspector.Length == 0;

    /// <summary>The days of play as written in the query.</summary>
    public static IEnumerable<(string Value, DateOnly Day)> DaysOf(Event held) =>
        Enumerable.Range(0, held.To.DayNumber - held.From.DayNumber + 1)
        .Select(held.From.AddDays).Select(day => (day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), day));

    /// <summary>Faults for choices that do not exist.</summary>
    public Faults Check(Event held, IReadOnlyList<(string Id, string Name)> inspectors)
    {
        var faults = new Faults();
        if (Day.Length > 0 && DaysOf(held).All(day => day.Value != Day))
        {
            faults.Add("day", $"\"{Day}\" is not a day of play of this event; choose one from the list.");
        }

        if (Squad.Length > 0 && held.Squads.All(squad => squad.Name != Squad))
        {
            faults.Add("squad", $"\"{Squad}\" is not a squad of this event; choose one from the list.");
        }

        if (Inspector.Length > 0 && inspectors.All(one => one.Id != Inspector))
        {
            faults.Add("inspector", $"\"{Inspector}\" has recorded nothing at this event; choose one from the list.");
        }

        return faults;
    }
}
