using System.Security.Claims;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Prepare;

/// <summary>An entry as it is shown beside the one that it may be merged with.</summary>
/// <param name="Entry">The entry.</param>
/// <param name="Elsewhere">The other entries of its person.</param>
/// <param name="Inspections">How many inspections are recorded under its number.</param>
public sealed record MergedEntry(Entry Entry, IReadOnlyList<string> Elsewhere, long Inspections);

/// <summary>The pages where a director enters one bowler and puts entries right.</summary>
public static class EntryChangePages
{
    public static void MapEntryChangePages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events/{event}/entries").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapPost("", Add).WithName("AddBowler").WithSummary("Enters one bowler");
        pages.MapGet("{entry}/change", Show).WithName("ChangeEntryPage").WithSummary("The form of an entry as it is");
        pages.MapPost("{entry}/change", Change).WithName("ChangeEntry").WithSummary("Changes a bowler's name or squad");
        pages.MapPost("{entry}/withdraw", Withdraw).WithName("WithdrawEntry").WithSummary("Withdraws an entry, which stays to be seen");
        pages.MapPost("{entry}/back", BringBack).WithName("BringEntryBack").WithSummary("Brings a withdrawn entry back");
        pages.MapGet("{entry}/merge", ShowMerge).WithName("MergePage").WithSummary("Two entries side by side that may be one bowler");
        pages.MapPost("{entry}/merge", Merge).WithName("MergeEntries").WithSummary("Merges two entries that are one bowler");
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<AddBowlerPage>, RazorComponentResult<ErrorPage>>> Add(
        string @event, IFormCollection form, ClaimsPrincipal user, KnownBowlers bowlers, [AsParameters] EntryForm services)
    {
        if (services.Events.Find(@event) is not { } into)
        {
            return EventFormPages.NoEvent(@event);
        }

        var typed = TypedBowler.Of(form);
        var faults = new Faults();
        IReadOnlyList<KnownBowler> known = [];
        if (typed.Read(into, services.Events.EntriesOf(into.Id), faults) is { } entry)
        {
            known = bowlers.Of(into.Id, [entry.Bowler]).Of(entry.Bowler);
            var isAsked = known.Count > 0 && !form.ContainsKey("known");
            var chosen = known.FirstOrDefault(each => each.Person.ToString() == form["known"]);
            entry = entry with { Known = chosen?.Person };
            var by = EventFormPages.By(user, services.Time);
            if (!isAsked && await services.Gate.Run(write => EntryChanges.Enter(write, into.Id, entry, by)) is { } number)
            {
                return TypedResults.LocalRedirect($"/events/{into.Id}/entries/{number}");
            }

            if (!isAsked)
            {
                faults.Add("number", $"Entry \"{typed.Number}\" was taken just now; give another number, or leave it empty.");
            }
        }

        return new RazorComponentResult<AddBowlerPage>(new { Event = into, Typed = typed, Known = known, Faults = faults })
        {
            StatusCode = EventFormPages.Status(faults),
        };
    }

    private static Results<RazorComponentResult<ChangeEntryPage>, RazorComponentResult<ErrorPage>> Show(
        [AsParameters] EntryAddress address, Events events, Database database) =>
        address.In(events) is var (held, entry)
            ? Page(held, entry, TypedBowler.Of(entry, GuardianContacts.Of(database, held.Id, entry.Number)), database, new Faults())
            : address.NoEntry();

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<ChangeEntryPage>, RazorComponentResult<ErrorPage>>> Change(
        [AsParameters] EntryAddress address, IFormCollection form, ClaimsPrincipal user, Database database,
        [AsParameters] EntryForm services)
    {
        if (address.In(services.Events) is not var (held, entry))
        {
            return address.NoEntry();
        }

        var typed = TypedBowler.Of(form);
        var faults = new Faults();
        if (entry.Bowler is not null)
        {
            typed.CheckName(faults);
            typed.CheckGuardian(faults);
        }

        typed.CheckSquad(held, faults);
        if (entry.MergedInto is not null)
        {
            faults.Add(Faults.Whole, entry.Refusal!);
        }

        if (!faults.AreNone)
        {
            return Page(held, entry, typed, database, faults);
        }

        await Do(services, held, entry, user, (write, now, by) =>
        {
            EntryChanges.Set(write, held.Id, now, now.Bowler is null ? null : typed.Name, typed.SquadOrNone, by);
            if (now.Bowler is not null)
            {
                EntryChanges.SetUnderAge(write, held.Id, now, typed.IsUnderAge, typed.Guardian, by);
            }
        });
        return ToEntry(held, entry);
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<ErrorPage>>> Withdraw(
        [AsParameters] EntryAddress address, IFormCollection form, ClaimsPrincipal user, [AsParameters] EntryForm services)
    {
        if (address.In(services.Events) is not var (held, entry))
        {
            return address.NoEntry();
        }

        await Do(services, held, entry, user, (write, now, by) =>
        {
            if (!now.IsWithdrawn)
            {
                EntryChanges.Withdraw(write, held.Id, now, by);
            }
        });
        return ToEntry(held, entry);
    }

    private static async Task<Results<
        RedirectHttpResult, RazorComponentResult<ChangeEntryPage>, RazorComponentResult<ErrorPage>>> BringBack(
        [AsParameters] EntryAddress address, IFormCollection form, ClaimsPrincipal user, Database database,
        [AsParameters] EntryForm services)
    {
        if (address.In(services.Events) is not var (held, entry))
        {
            return address.NoEntry();
        }

        var isBack = true;
        await Do(services, held, entry, user, (write, now, by) =>
        {
            isBack = !now.IsWithdrawn || EntryChanges.BringBack(write, held.Id, now, by);
        });
        if (isBack)
        {
            return ToEntry(held, entry);
        }

        var faults = new Faults();
        faults.Add(Faults.Whole, $"Entry {entry.Number} cannot be brought back yet: the entry that it was merged into was merged further.");
        return Page(held, entry, TypedBowler.Of(entry, ""), database, faults);
    }

    private static Results<
        RazorComponentResult<MergePage>, RazorComponentResult<ChangeEntryPage>, RazorComponentResult<ErrorPage>> ShowMerge(
        [AsParameters] EntryAddress address, Events events, Database database, string? other = null)
    {
        if (address.In(events) is not var (held, entry))
        {
            return address.NoEntry();
        }

        var faults = new Faults();
        return Other(events, held, entry, other?.Trim() ?? "", faults) is { } twin
            ? MergePage(held, entry, twin, database, faults)
            : Page(held, entry, TypedBowler.Of(entry, GuardianContacts.Of(database, held.Id, entry.Number)), database, faults, other);
    }

    private static async Task<Results<
        RedirectHttpResult, RazorComponentResult<MergePage>, RazorComponentResult<ChangeEntryPage>, RazorComponentResult<ErrorPage>>> Merge(
        [AsParameters] EntryAddress address, IFormCollection form, ClaimsPrincipal user, Database database,
        [AsParameters] EntryForm services)
    {
        if (address.In(services.Events) is not var (held, entry))
        {
            return address.NoEntry();
        }

        var faults = new Faults();
        var other = form["other"].ToString();
        if (Other(services.Events, held, entry, other, faults) is not { } twin)
        {
            return Page(held, entry, TypedBowler.Of(entry, GuardianContacts.Of(database, held.Id, entry.Number)), database, faults, other);
        }

        if (form["stays"] != entry.Number && form["stays"] != twin.Number)
        {
            faults.Add("stays", $"Choose the number that stays, {entry.Number} or {twin.Number}.");
            return MergePage(held, entry, twin, database, faults);
        }

        var (kept, gone) = form["stays"] == entry.Number ? (entry, twin) : (twin, entry);
        await Do(services, held, kept, user, (write, now, by) =>
        {
            if (!now.IsWithdrawn
                && Events.FindEntry(write.Connection, held.Id, gone.Number, write.Transaction) is { IsWithdrawn: false } second)
            {
                EntryChanges.Merge(write, held.Id, now, second, by);
            }
        });
        return ToEntry(held, kept);
    }

    // The other entry, or null with the fault of its number.
    private static Entry? Other(Events events, Event held, Entry entry, string other, Faults faults)
    {
        var twin = other.Length == 0 ? null : events.FindEntry(held.Id, other);
        var fault = entry.Refusal is { } gone ? gone
            : other.Length == 0 ? "Write the number of the other entry of this bowler."
            : twin is null ? $"There is no entry \"{other}\" in {held.Name}."
            : twin.Number == entry.Number ? $"\"{other}\" is this entry; write the number of the other one."
            : twin.Refusal;
        if (fault is not null)
        {
            faults.Add("other", fault);
        }

        return fault is null ? twin : null;
    }

    private static RazorComponentResult<MergePage> MergePage(Event held, Entry one, Entry other, Database database, Faults faults) =>
        new(new { Event = held, One = Merged(database, held, one), Other = Merged(database, held, other), Faults = faults })
        {
            StatusCode = EventFormPages.Status(faults),
        };

    private static RazorComponentResult<ChangeEntryPage> Page(
        Event held, Entry entry, TypedBowler typed, Database database, Faults faults, string? other = null) =>
        new(new
        {
            Event = held,
            Entry = entry,
            Typed = typed,
            Merged(database, held, entry).Elsewhere,
            Between = Between(database, held, entry),
            Other = other,
            Faults = faults,
        })
        { StatusCode = EventFormPages.Status(faults) };

    private static MergedEntry Merged(Database database, Event held, Entry entry)
    {
        using var connection = database.OpenForReading();
        return new MergedEntry(
            entry,
            connection.Query<string>(
                $"""
                SELECT e.entry || ' at ' || v.name FROM entry e JOIN event v ON v.event = e.event
                WHERE {Events.Counts} AND e.person = @person AND NOT (e.event = @Id AND e.entry = @Number) ORDER BY v.from_day DESC, e.entry
                """,
                new { person = entry.Person.ToString(), held.Id, entry.Number }).AsList(),
            connection.ExecuteScalar<long>(
                "SELECT count(*) FROM inspection_index WHERE event = @Id AND entry = @Number", new { held.Id, entry.Number }));
    }

    private static string? Between(Database database, Event held, Entry entry)
    {
        using var connection = database.OpenForReading();
        return EntryChanges.MergedBetween(connection, null, held.Id, entry);
    }

    // Does something with an entry as it is at the gate.
    private static Task<bool> Do(
        EntryForm services, Event held, Entry entry, ClaimsPrincipal user, Action<WriteTransaction, Entry, ChangedBy> work)
    {
        var by = EventFormPages.By(user, services.Time);
        return services.Gate.Run(write =>
        {
            if (Events.FindEntry(write.Connection, held.Id, entry.Number, write.Transaction) is { } now)
            {
                work(write, now, by);
            }

            return true;
        });
    }

    private static RedirectHttpResult ToEntry(Event held, Entry entry) =>
        TypedResults.LocalRedirect($"/events/{held.Id}/entries/{entry.Number}");
}

/// <summary>What changing an entry needs.</summary>
public sealed record EntryForm(Events Events, WriteGate Gate, TimeProvider Time);
