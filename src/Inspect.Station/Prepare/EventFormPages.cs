using System.Globalization;
using System.Security.Claims;
using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Prepare;

/// <summary>The pages where a director adds, changes or deletes an event, and what was changed of it.</summary>
public static class EventFormPages
{
    // The same day of the week a year later.
    private const int YearInWeeks = 52 * 7;

    public static void MapEventFormPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapGet("new", ShowNew).WithName("NewEventPage").WithSummary("The form of a new event, empty or filled from another");
        pages.MapPost("new", Add).WithName("AddEvent").WithSummary("Adds an event with its squads");
        pages.MapGet("{event}/change", ShowChange).WithName("ChangeEventPage").WithSummary("The form of an event as it is");
        pages.MapPost("{event}/change", Change).WithName("ChangeEvent").WithSummary("Changes an event and its squads");
        pages.MapGet("{event}/delete", ShowDelete).WithName("DeleteEventPage").WithSummary("What goes with an event that was never used");
        pages.MapPost("{event}/delete", Delete).WithName("DeleteEvent").WithSummary("Deletes an event that was never used");
        app.MapGet("/events/{event}/changes", ShowChanges).RequireAuthorization(Policies.Inspector).ExcludeFromDescription()
            .WithName("ChangesPage").WithSummary("Every change of an event and its entries");
    }

    private static Results<
        RazorComponentResult<EventFormPage>, RazorComponentResult<CopyEventPage>, RazorComponentResult<ErrorPage>> ShowNew(
        EditionLibrary library, Events events, string? copy = null, string? from = null)
    {
        if (string.IsNullOrEmpty(copy))
        {
            return new RazorComponentResult<EventFormPage>(new { Library = library, Others = events.All() });
        }

        if (events.Find(copy) is not { } other)
        {
            return NoEvent(copy);
        }

        if (DateOnly.TryParseExact(from, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            return new RazorComponentResult<EventFormPage>(
                new { Library = library, Typed = TypedEvent.Copied(other, day), CopyOf = other });
        }

        var faults = new Faults();
        if (from is not null)
        {
            faults.Add("from", from.Length == 0 ? "Give the first day of play." : $"\"{from}\" is not a day; write it as 2027-03-14.");
        }

        return new RazorComponentResult<CopyEventPage>(new
        {
            Other = other,
            From = from ?? other.From.AddDays(YearInWeeks).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            Faults = faults,
        })
        { StatusCode = Status(faults) };
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<EventFormPage>>> Add(
        IFormCollection form, EditionLibrary library, Events events, ClaimsPrincipal user, WriteGate gate, TimeProvider time)
    {
        var typed = TypedEvent.Of(form);
        var faults = new Faults();
        var copyOf = form["copy"].ToString() is { Length: > 0 } copied ? events.Find(copied) : null;
        if (form["act"] == "row")
        {
            typed = typed.WithARow();
        }
        else if (typed.Read(library, Taken(events), faults) is { } added)
        {
            var by = By(user, time);
            var isAdded = await gate.Run(write =>
            {
                if (!Events.TryAdd(write, added))
                {
                    return false;
                }

                EventChanges.Keep(write, new Change(added.Id, null, "added", null, added.Name), by);
                if (copyOf is not null && form["terms"] == "yes")
                {
                    var leftOut = EventCopies.Copy(write, copyOf.Id, added, library, by);
                    EventChanges.Keep(write, new Change(added.Id, null, $"own rules and terms copied from {copyOf.Id}", null,
                        leftOut.Count == 0 ? null : $"left out: {string.Join(' ', leftOut)}"), by);
                }

                return true;
            });
            if (isAdded)
            {
                return TypedResults.LocalRedirect($"/events/{added.Id}");
            }

            faults.Add("event", $"\"{added.Id}\" is the short name of another event on this station; give another one.");
        }

        return new RazorComponentResult<EventFormPage>(
            new { Library = library, Typed = typed, Faults = faults, CopyOf = copyOf, CopiesTerms = form["terms"] == "yes" })
        { StatusCode = Status(faults) };
    }

    private static Results<RazorComponentResult<EventFormPage>, RazorComponentResult<ErrorPage>> ShowChange(
        string @event, EditionLibrary library, Events events, EventChanges changes, Database database) =>
        events.Find(@event) is { } held
            ? new RazorComponentResult<EventFormPage>(new
            {
                Library = library,
                Typed = TypedEvent.Of(held).WithARow(),
                Held = held,
                Lock = EventLock.Of(database, held.Id),
                Seen = changes.Latest(held.Id),
            })
            : NoEvent(@event);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<EventFormPage>, RazorComponentResult<ErrorPage>>> Change(
        string @event, IFormCollection form, ClaimsPrincipal user, [AsParameters] EventForm services)
    {
        if (services.Events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var recorded = EventLock.Of(services.Database, held.Id);
        var typed = TypedEvent.Of(form);
        typed = recorded.OfShortName is not null || typed.Id.Length == 0 ? typed with { Id = held.Id } : typed;
        typed = recorded.OfRules is null ? typed : typed with { Rules = TypedEvent.RulesOf(held) };
        var faults = new Faults();
        var seen = long.TryParse(form["seen"], NumberStyles.None, CultureInfo.InvariantCulture, out var shown) ? shown : -1;
        if (form["act"] == "row")
        {
            typed = typed.WithARow();
        }
        else if (typed.Read(services.Editions, [.. Taken(services.Events).Where(id => id != held.Id)], faults, held) is { } now)
        {
            var asked = new AskedChange(held.Id, now, seen);
            var by = By(user, services.Time);
            faults = await services.Gate.Run(write => EventCorrections.Apply(write, asked, typed.ReadSquads(now), services.Editions, by));
            if (faults.AreNone)
            {
                return TypedResults.LocalRedirect($"/events/{now.Id}");
            }

            // Once it was said that somebody else changed the event, saving again is a choice.
            seen = faults.At(Faults.Whole) is null ? seen : services.Changes.Latest(held.Id);
        }

        return new RazorComponentResult<EventFormPage>(new
        {
            Library = services.Editions,
            Typed = typed,
            Faults = faults,
            Held = held,
            Lock = recorded,
            Seen = seen,
        })
        { StatusCode = Status(faults) };
    }

    private static Results<RazorComponentResult<DeleteEventPage>, RazorComponentResult<ErrorPage>> ShowDelete(
        string @event, Events events, Database database) =>
        events.Find(@event) is { } held ? DeletePage(held, events, database, new Faults()) : NoEvent(@event);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<DeleteEventPage>, RazorComponentResult<ErrorPage>>> Delete(
        string @event, IFormCollection form, ClaimsPrincipal user, [AsParameters] EventForm services)
    {
        if (services.Events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var by = By(user, services.Time);
        var entries = int.TryParse(form["entries"], NumberStyles.None, CultureInfo.InvariantCulture, out var shown) ? shown : -1;
        if (await services.Gate.Run(write => EventCorrections.Delete(write, held.Id, entries, by)) is not { } refusal)
        {
            return TypedResults.LocalRedirect("/events");
        }

        var faults = new Faults();
        faults.Add(Faults.Whole, refusal);
        return DeletePage(held, services.Events, services.Database, faults);
    }

    private static RazorComponentResult<DeleteEventPage> DeletePage(Event held, Events events, Database database, Faults faults) =>
        new(new { Event = held, Entries = events.EntriesOf(held.Id), Refusal = EventLock.Of(database, held.Id).OfEvent, Faults = faults })
        {
            StatusCode = Status(faults),
        };

    private static Results<RazorComponentResult<ChangesPage>, RazorComponentResult<ErrorPage>> ShowChanges(
        string @event, Events events, EventChanges changes, string? page = null) =>
        events.Find(@event) is not { } held ? NoEvent(@event)
        : PageOf.Of(changes.OfEvent(held.Id), page) is { } shown
            ? new RazorComponentResult<ChangesPage>(new { Event = held, Changes = shown })
            : ErrorAnswers.Page(StatusCodes.Status404NotFound, PageOf.NoSuchPage(page));

    private static HashSet<string> Taken(Events events) => [.. events.All().Select(each => each.Id)];

    internal static ChangedBy By(ClaimsPrincipal user, TimeProvider time) => new(SignedIn.From(user).Person, time.GetUtcNow());

    internal static int Status(Faults faults) => faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity;

    internal static RazorComponentResult<ErrorPage> NoEvent(string id) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{id}\" on this station.");
}

/// <summary>What changing an event needs.</summary>
public sealed record EventForm(
    EditionLibrary Editions, Events Events, EventChanges Changes, Database Database, WriteGate Gate, TimeProvider Time);
