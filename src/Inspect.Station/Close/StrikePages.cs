using System.Globalization;
using System.Security.Claims;
using Inspect.Station.Access;
using Inspect.Station.Import;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Close;

/// <summary>The page on which a director strikes the names of an event's bowlers, or of one of them.</summary>
public static partial class StrikePages
{
    /// <summary>Adds what strikes names and makes archives.</summary>
    public static void AddClose(this IServiceCollection services)
    {
        services.AddSingleton<Striking>();
        services.AddSingleton<EventArchives>();
    }

    public static void MapStrikePages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events/{event}").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapGet("strike", Show).WithName("StrikePage").WithSummary("What striking the names of an event would delete");
        pages.MapPost("strike", Strike).WithName("StrikeNames").WithSummary("Strikes the names of an event");
        pages.MapPost("strike/guardians", StrikeGuardians).WithName("StrikeGuardians")
            .WithSummary("Strikes the contacts of guardians of an event");
        pages.MapGet("entries/{entry}/strike", Show).WithName("StrikeOnePage").WithSummary("What striking one name would delete");
        pages.MapPost("entries/{entry}/strike", Strike).WithName("StrikeOneName").WithSummary("Strikes the name of one bowler");
    }

    private static Results<RazorComponentResult<StrikePage>, RazorComponentResult<ErrorPage>> Show(
        [AsParameters] StrikeAddress address, [AsParameters] StrikeNeeds needs) =>
        address.Find(needs.Events, out var held, out var entry) is { } refusal ? refusal : Page(held!, entry, needs, new Faults());

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<StrikePage>, RazorComponentResult<ErrorPage>>> Strike(
        [AsParameters] StrikeAddress address, IFormCollection form, ClaimsPrincipal user, [AsParameters] StrikeNeeds needs)
    {
        if (address.Find(needs.Events, out var held, out var entry) is { } refusal)
        {
            return refusal;
        }

        var faults = new Faults();
        var typed = form["confirm"].ToString().Trim();
        if (!string.Equals(typed, held!.Id, StringComparison.OrdinalIgnoreCase))
        {
            faults.Add("confirm", $"\"{typed}\" is not the short name of this event; write {held.Id} to strike its names.");
            return Page(held, entry, needs, faults);
        }

        var shown = int.TryParse(form["names"], NumberStyles.None, CultureInfo.InvariantCulture, out var names) ? names : -1;
        if (await needs.Striking.Strike(held, entry?.Number, shown, EventFormPages.By(user, needs.Time)) is null)
        {
            faults.Add(Faults.Whole, "What would go is not what this page showed. It is shown anew; look at it before you confirm.");
            return Page(held, entry, needs, faults);
        }

        needs.Files.ForgetAll();
        return await Rewritten(needs, faults)
            ? TypedResults.LocalRedirect($"{StrikePage.AddressOf(held, entry)}#struck") : Page(held, entry, needs, faults);
    }

    private static async Task<Results<
        RedirectHttpResult, RazorComponentResult<StrikePage>, RazorComponentResult<ErrorPage>>> StrikeGuardians(
        string @event, IFormCollection form, ClaimsPrincipal user, [AsParameters] StrikeNeeds needs)
    {
        _ = form;
        if (needs.Events.Find(@event) is not { } held)
        {
            return EventFormPages.NoEvent(@event);
        }

        await needs.Striking.StrikeGuardians(held, EventFormPages.By(user, needs.Time));
        var faults = new Faults();
        return await Rewritten(needs, faults)
            ? TypedResults.LocalRedirect(StrikePage.AddressOf(held, null)) : Page(held, null, needs, faults);
    }

    private static async Task<bool> Rewritten(StrikeNeeds needs, Faults faults)
    {
        try
        {
            await needs.Striking.Rewrite();
        }
        catch (Exception error) when (error is not ObjectDisposedException)
        {
            NotRewritten(needs.Log, error);
            faults.Add(Faults.Whole, "It is struck, but the store could not be written anew, so its files may still hold what was deleted: "
                + $"{error.Message} Make room on the disk, and press again.");
        }

        return faults.AreNone;
    }

    private static RazorComponentResult<StrikePage> Page(Event held, Entry? entry, StrikeNeeds needs, Faults faults) => new(new
    {
        Event = held,
        Entry = entry,
        Plan = needs.Striking.Plan(held, entry?.Number),
        Archives = needs.Changes.ArchivesWithNames(held.Id),
        Last = needs.Changes.LastStrike(held.Id),
        Today = held.DayAt(needs.Time.GetUtcNow()),
        Others = needs.Folder.Others(),
        Faults = faults,
    })
    { StatusCode = EventFormPages.Status(faults) };

    [LoggerMessage(Level = LogLevel.Error, Message = "Names were struck, but the store could not be written anew")]
    private static partial void NotRewritten(ILogger log, Exception error);
}

/// <summary>An event, or one of its entries, as the address names it.</summary>
public sealed record StrikeAddress(string Event, string? Entry = null)
{
    /// <summary>Finds both; the page that says what there is not, or null.</summary>
    internal RazorComponentResult<ErrorPage>? Find(Events events, out Event? held, out Entry? entry)
    {
        (held, entry) = (events.Find(Event), null);
        if (held is null)
        {
            return EventFormPages.NoEvent(Event);
        }

        entry = Entry is null ? null : events.FindEntry(held.Id, Entry);
        return Entry is not null && entry is null ? new EntryAddress(Event, Entry).NoEntry() : null;
    }
}

/// <summary>What striking needs.</summary>
public sealed record StrikeNeeds(
    Events Events, EventChanges Changes, Striking Striking, HeldFiles Files, DataFolder Folder, TimeProvider Time, ILogger<Striking> Log);
