using System.Security.Claims;
using Inspect.Sheets;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Instruments;

/// <summary>The pages of the instruments. Inspectors see them and choose which they use; directors add, change and retire them.</summary>
public static class InstrumentPages
{
    public static void MapInstrumentPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/instruments").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        pages.MapGet("", Show).WithName("InstrumentsPage").WithSummary("Every instrument, and which are in use");
        pages.MapPost("in-use", Choose).WithName("ChooseInstruments").WithSummary("Sets the instruments in use at one's table");
        pages.MapGet("{name}", ShowOne).WithName("InstrumentPage").WithSummary("One instrument with its history");
        var director = app.MapGroup("/instruments").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        director.MapGet("new", ShowNew).WithName("NewInstrumentPage").WithSummary("The form that adds an instrument");
        director.MapPost("new", Add).WithName("AddInstrument").WithSummary("Adds an instrument");
        director.MapGet("{name}/change", ShowChange).WithName("ChangeInstrumentPage").WithSummary("The form that changes an instrument");
        director.MapPost("{name}/change", Change).WithName("ChangeInstrument").WithSummary("Saves a change of an instrument");
        director.MapPost("{name}/retire", Retire).WithName("RetireInstrument").WithSummary("Retires an instrument, or takes it back");
    }

    private static RazorComponentResult<InstrumentsPage> Show(
        ClaimsPrincipal user, Database database, InUse inUse, Events events, TimeProvider time) =>
        List(user, database, inUse, events, time, new Faults());

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<InstrumentsPage>>> Choose(
        IFormCollection form, ClaimsPrincipal user, Database database, InstrumentBook book, InUse inUse, Events events, WriteGate gate,
        TimeProvider time)
    {
        var faults = new Faults();
        var chosen = new List<Instrument>();
        foreach (var kind in InstrumentKinds.Measuring)
        {
            var field = InUse.Field(kind);
            if (form[field].ToString() is not { Length: > 0 } name)
            {
                continue;
            }

            if (book.Find(name) is { IsRetired: false } found && found.Kind == kind)
            {
                chosen.Add(found);
            }
            else
            {
                faults.Add(field, $"\"{name}\" is no {InstrumentKinds.TitleOf(kind).ToLowerInvariant()} that can be used; "
                    + "choose one from the list.");
            }
        }

        if (!faults.AreNone)
        {
            return List(user, database, inUse, events, time, faults);
        }

        var (person, at) = (SignedIn.From(user).Person, time.GetUtcNow());
        await gate.Run(write =>
        {
            InUse.Choose(write, person, chosen, at);
            return true;
        });
        return TypedResults.LocalRedirect("/instruments");
    }

    private static Results<RazorComponentResult<InstrumentPage>, RazorComponentResult<ErrorPage>> ShowOne(
        string name, ClaimsPrincipal user, InstrumentBook book, WholeInstrument whole) =>
        book.Find(name) is { } found ? whole.Page(found, SignedIn.From(user), new Faults()) : NoInstrument(name);

    private static RazorComponentResult<InstrumentForm> ShowNew(string? kind = null) => new(new
    {
        Typed = TypedInstrument.None,
        Kind = kind is null ? null : InstrumentKinds.Named(kind),
        Faults = new Faults(),
    });

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<InstrumentForm>>> Add(
        IFormCollection form, ClaimsPrincipal user, WriteGate gate, TimeProvider time)
    {
        var (typed, faults) = (TypedInstrument.From(form), new Faults());
        if (typed.Read(null, faults) is { } made)
        {
            made = made with { At = time.GetUtcNow(), By = SignedIn.From(user).Person };
            if (await gate.Run(write => InstrumentBook.TryAdd(write, made)))
            {
                return TypedResults.LocalRedirect(made.Address);
            }

            faults.Add("name", $"There is already an instrument \"{made.Name}\"; "
                + "give another name, so that their readings can be told apart.");
        }

        return new RazorComponentResult<InstrumentForm>(
            new { Typed = typed, Kind = InstrumentKinds.Named(typed.Typed("kind")), Faults = faults })
        {
            StatusCode = StatusCodes.Status422UnprocessableEntity,
        };
    }

    private static Results<RazorComponentResult<InstrumentForm>, RazorComponentResult<ErrorPage>> ShowChange(
        string name, InstrumentBook book) =>
        book.Find(name) is { } found
            ? new RazorComponentResult<InstrumentForm>(
                new { Typed = TypedInstrument.Of(found), Before = found, found.Kind, Faults = new Faults() })
            : NoInstrument(name);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<InstrumentForm>, RazorComponentResult<ErrorPage>>> Change(
        string name, IFormCollection form, ClaimsPrincipal user, InstrumentBook book, WriteGate gate, TimeProvider time)
    {
        if (book.Find(name) is not { } before)
        {
            return NoInstrument(name);
        }

        var (typed, faults) = (TypedInstrument.From(form), new Faults());
        if (typed.Read(before, faults) is { } made)
        {
            made = made with { Version = SeenVersion(form), At = time.GetUtcNow(), By = SignedIn.From(user).Person };
            if (await gate.Run(write => InstrumentBook.TryChange(write, made)))
            {
                return TypedResults.LocalRedirect(made.Address);
            }

            faults.Add(Faults.Whole, "Somebody else changed this instrument meanwhile; look at it again before you change it.");
        }

        return new RazorComponentResult<InstrumentForm>(new { Typed = typed, Before = before, before.Kind, Faults = faults })
        {
            StatusCode = StatusCodes.Status422UnprocessableEntity,
        };
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<InstrumentPage>, RazorComponentResult<ErrorPage>>> Retire(
        string name, IFormCollection form, ClaimsPrincipal user, InstrumentBook book, WholeInstrument whole, WriteGate gate,
        TimeProvider time)
    {
        if (book.Find(name) is not { } before)
        {
            return NoInstrument(name);
        }

        var changed = before with
        {
            IsRetired = form["retired"] == "yes",
            Version = SeenVersion(form),
            At = time.GetUtcNow(),
            By = SignedIn.From(user).Person,
        };
        if (await gate.Run(write => InstrumentBook.TryChange(write, changed)))
        {
            return TypedResults.LocalRedirect(before.Address);
        }

        var faults = new Faults();
        faults.Add(Faults.Whole, "Somebody else changed this instrument meanwhile; this is how it is now.");
        return whole.Page(book.Find(name)!, SignedIn.From(user), faults);
    }

    internal static RazorComponentResult<ErrorPage> NoInstrument(string name) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no instrument \"{name}\" on this station.");

    /// <summary>The event of today, or else the latest one. The table uses its time zone.</summary>
    internal static Event? Present(Events events, DateTimeOffset now)
    {
        var all = events.All();
        return all.FirstOrDefault(held => held.Includes(held.DayAt(now))) ?? (all.Count > 0 ? all[0] : null);
    }

    internal static TimeZoneInfo ZoneOf(Event? present) =>
        present is null ? TimeZoneInfo.Utc : TimeZoneInfo.FindSystemTimeZoneById(present.TimeZone);

    internal static DateOnly Today(Event? present, DateTimeOffset now) => present?.DayAt(now) ?? DateOnly.FromDateTime(now.UtcDateTime);

    private static RazorComponentResult<InstrumentsPage> List(
        ClaimsPrincipal user, Database database, InUse inUse, Events events, TimeProvider time, Faults faults)
    {
        using var connection = database.OpenForReading();
        var (now, present) = (time.GetUtcNow(), Present(events, time.GetUtcNow()));
        return new RazorComponentResult<InstrumentsPage>(new
        {
            All = InstrumentStanding.All(connection),
            Chosen = inUse.Of(SignedIn.From(user).Person),
            Viewer = SignedIn.From(user),
            Present = present,
            Rule = present is null ? CheckRule.Usual : CheckRule.Of(connection, present.Id),
            Now = now,
            Faults = faults,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }

    private static long SeenVersion(IFormCollection form) =>
        long.TryParse(form["version"], System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture,
            out var version) ? version : 0;
}
