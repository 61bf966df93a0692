using System.Globalization;
using System.Security.Claims;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.ModelLists;

/// <summary>The pages of the lists of models, and of which an event reads.</summary>
public static class ModelListPages
{
    private const int LongestName = 80;

    public static void MapModelListPages(this IEndpointRouteBuilder app)
    {
        var lists = app.MapGroup("/lists").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        lists.MapGet("", ShowAll).WithName("ModelListsPage").WithSummary("The lists of models");
        lists.MapPost("", Add).RequireAuthorization(Policies.Director).WithName("AddModelList").WithSummary("Adds a list of models");
        lists.MapGet("{list:long}", Show).WithName("ModelListPage").WithSummary("One list of models, to look up");
        lists.MapGet("{list:long}/versions/{version:long}", Download).WithName("ModelListFile").WithSummary("A version of a list as CSV");
        var ofEvent = app.MapGroup("/events/{event}/lists").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        ofEvent.MapGet("", ShowOfEvent).WithName("EventListsPage").WithSummary("Which lists of models an event reads");
        ofEvent.MapPost("", SetOfEvent).WithName("SetEventLists").WithSummary("Sets which lists of models an event reads");
    }

    private static RazorComponentResult<ModelListsPage> ShowAll(ListedModels models, EventLists events) =>
        All(models, events, new Faults(), "");

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<ModelListsPage>>> Add(
        IFormCollection form, ListedModels models, EventLists events, WriteGate gate)
    {
        var (name, faults) = (form["name"].ToString().Trim(), new Faults());
        if (name.Length is 0 or > LongestName || !PlainText.IsLine(name))
        {
            faults.Add("name", name.Length == 0 ? "Write what the list is called, such as Approved balls."
                : $"\"{name}\" cannot be the name of a list; write at most {LongestName} characters in one line.");
        }
        else if (await gate.Run(write => ListedModels.All(write.Connection, write.Transaction).Any(list => list.Name == name)
            ? (long?)null : ListedModels.AddList(write, name)) is { } added)
        {
            return TypedResults.LocalRedirect(string.Create(CultureInfo.InvariantCulture, $"/lists/{added}/bring"));
        }
        else
        {
            faults.Add("name", $"There is a list \"{name}\" already; bring a new version into that one.");
        }

        return All(models, events, faults, name);
    }

    private static RazorComponentResult<ModelListsPage> All(ListedModels models, EventLists events, Faults faults, string typed)
    {
        var all = models.All();
        return new RazorComponentResult<ModelListsPage>(new
        {
            Lists = all.Select(list => (list, events.Reading(list.Id))).ToList(),
            Faults = faults,
            Typed = typed,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }

    private static Results<RazorComponentResult<ModelListPage>, RazorComponentResult<ErrorPage>> Show(
        long list, ListedModels models, EventLists events, string? q = null, long? version = null, string? page = null)
    {
        if (models.Find(list) is not { } found)
        {
            return NoList(list);
        }

        var shown = version is null ? found.Newest : found.Versions.FirstOrDefault(each => each.Version == version);
        if (shown is null && version is not null)
        {
            return NoVersion(found, version.Value);
        }

        var typed = (q ?? "").Trim();
        return PageOf.Of(shown is null ? [] : models.Rows(shown, typed), page) is { } rows
            ? new RazorComponentResult<ModelListPage>(
                new { List = found, Shown = shown, Rows = rows, Typed = typed, Events = events.Reading(list) })
            : ErrorAnswers.Page(StatusCodes.Status404NotFound, PageOf.NoSuchPage(page));
    }

    private static Results<FileContentHttpResult, RazorComponentResult<ErrorPage>> Download(long list, long version, ListedModels models) =>
        models.Find(list) is not { } found ? NoList(list)
        : found.Versions.FirstOrDefault(each => each.Version == version) is { } shown
            ? TypedResults.File(models.FileOf(shown), "text/csv; charset=utf-8", shown.FileName)
            : NoVersion(found, version);

    private static Results<RazorComponentResult<EventListsPage>, RazorComponentResult<ErrorPage>> ShowOfEvent(
        string @event, Events events, ListedModels models, EventLists lists) =>
        events.Find(@event) is { } held ? OfEvent(held, models, lists.Of(held.Id)) : EventFormPages.NoEvent(@event);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<ErrorPage>>> SetOfEvent(
        string @event, IFormCollection form, ClaimsPrincipal user, Events events, ListedModels models, WriteGate gate, TimeProvider time)
    {
        if (events.Find(@event) is not { } held)
        {
            return EventFormPages.NoEvent(@event);
        }

        var isOnStart = form["day"] == "start";
        var approved = form["approved"].ToString();
        var chosen = models.All().Where(list => list.Versions.Count > 0)
            .Select(list => (List: list, Id: list.Id.ToString(CultureInfo.InvariantCulture)))
            .Where(each => each.Id == approved || form["shown"].Contains(each.Id))
            .Select(each => new EventList(each.List, each.Id == approved, isOnStart))
            .OrderByDescending(list => list.IsApproved).ThenBy(list => list.List.Name, StringComparer.Ordinal).ToList();
        if (approved.Length > 0 && !chosen.Exists(list => list.IsApproved))
        {
            return ErrorAnswers.Page(
                StatusCodes.Status422UnprocessableEntity, $"There is no list \"{approved}\" with a version; nothing was saved.");
        }

        await gate.Run(write =>
        {
            EventLists.Set(write, held.Id, chosen, EventFormPages.By(user, time));
            return true;
        });
        return TypedResults.LocalRedirect($"/events/{held.Id}");
    }

    private static RazorComponentResult<EventListsPage> OfEvent(Event held, ListedModels models, IReadOnlyList<EventList> chosen) =>
        new(new { Event = held, Lists = models.All().Where(list => list.Versions.Count > 0).ToList(), Chosen = chosen });

    internal static RazorComponentResult<ErrorPage> NoList(long list) => ErrorAnswers.Page(
        StatusCodes.Status404NotFound, string.Create(CultureInfo.InvariantCulture, $"There is no list {list} on this station."));

    private static RazorComponentResult<ErrorPage> NoVersion(ModelList list, long version) => ErrorAnswers.Page(
        StatusCodes.Status404NotFound, string.Create(CultureInfo.InvariantCulture, $"\"{list.Name}\" has no version {version}."));
}
