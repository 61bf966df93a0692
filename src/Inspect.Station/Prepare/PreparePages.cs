using System.Security.Cryptography;
using System.Text;
using Inspect.Station.Access;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Prepare;

/// <summary>The page where a director adds a list of entries to an event.</summary>
public static class PreparePages
{
    public static void MapPreparePages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapGet("{event}/entries/add", ShowEntries).WithName("AddEntriesPage").WithSummary("The form that takes a list of entries");
        pages.MapPost("{event}/entries/add", AddEntries).WithName("AddEntries").WithSummary("Shows what a list would add, or adds it");
    }

    private static Results<RazorComponentResult<AddEntriesPage>, RazorComponentResult<ErrorPage>> ShowEntries(
        string @event, Events events) =>
        events.Find(@event) is { } found ? new RazorComponentResult<AddEntriesPage>(new { Event = found }) : NoEvent(@event);

    // Adds only what was shown before: the form has the hash of the lines that were previewed.
    private static async Task<Results<
        RedirectHttpResult, RazorComponentResult<AddEntriesPage>, RazorComponentResult<ErrorPage>>> AddEntries(
        string @event, IFormCollection form, Events events, KnownBowlers bowlers, WriteGate gate)
    {
        if (events.Find(@event) is not { } into)
        {
            return NoEvent(@event);
        }

        var text = form[EntryLines.Field].ToString();
        var seen = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ReplaceLineEndings("\n"))));
        var adds = form["act"] == "add";
        var (entries, known, faults) = Read(text, form, into, events, bowlers);
        if (adds && faults.AreNone && form["seen"] == seen)
        {
            if (await gate.Run(write => Events.TryEnter(write, into.Id, entries)))
            {
                return TypedResults.LocalRedirect($"/events/{into.Id}#entries");
            }

            // Somebody else entered one of these numbers meanwhile: reading the lines again names it.
            (entries, known, faults) = Read(text, form, into, events, bowlers);
        }
        else if (adds && faults.AreNone)
        {
            faults.Add(Faults.Whole, "The lines were changed after they were shown. This is what they add now; add them if this is right.");
        }

        var shown = faults.All.All(fault => fault.Path == Faults.Whole) ? entries : null;
        return new RazorComponentResult<AddEntriesPage>(
            new { Event = into, Lines = text, Faults = faults, Entries = shown, Known = known, Seen = shown is null ? null : seen })
        {
            StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }

    private static (IReadOnlyList<NewEntry> Entries, IReadOnlyDictionary<string, IReadOnlyList<KnownBowler>> Known, Faults Faults) Read(
        string text, IFormCollection form, Event into, Events events, KnownBowlers bowlers)
    {
        var faults = new Faults();
        var entries = EntryLines.Read(text, into, events.EntriesOf(into.Id), faults);
        var known = bowlers.Of(into.Id, entries);
        return ([.. entries.Select(entry => entry with { Known = Known(entry.Number, form, known) })], known, faults);
    }

    // The person chosen on the page, if that person is still possible; before the first choice, the person who is preselected.
    private static PersonId? Known(string number, IFormCollection form, IReadOnlyDictionary<string, IReadOnlyList<KnownBowler>> known) =>
        form.TryGetValue(KnownBowlers.Field(number), out var chosen)
            ? known.GetValueOrDefault(number)?.Select(bowler => (PersonId?)bowler.Person)
                .FirstOrDefault(person => person.ToString() == chosen)
            : KnownBowlers.Meant(number, known);

    private static RazorComponentResult<ErrorPage> NoEvent(string id) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{id}\" on this station.");
}
