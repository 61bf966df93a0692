using System.Globalization;
using System.Security.Claims;
using Inspect.Metrology;
using Inspect.Sheets;
using Inspect.Station.Access;
using Inspect.Station.Instruments;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Decide;

/// <summary>The pages to check an instrument at the start of a session, and the balls that a failed check puts in doubt.</summary>
/// <remarks>
/// A good check is recorded at once. A failed check is first shown with every ball it would put on hold, because a typing error must not
/// stop a queue. A second press on the same readings records it.
/// </remarks>
public static class CheckPages
{
    public static void MapCheckPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/instruments/{name}").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        pages.MapGet("check", Show).WithName("CheckPage").WithSummary("The form that checks an instrument");
        pages.MapPost("check", Send).WithName("CheckInstrument").WithSummary("Judges and records a check");
        pages.MapGet("checks/{seq:long}", ShowRecorded).WithName("RecordedCheckPage")
            .WithSummary("A recorded check, and the balls it puts in doubt");
    }

    private static Results<RazorComponentResult<CheckPage>, RazorComponentResult<ErrorPage>> Show(
        string name, InstrumentBook book, Events events, TimeProvider time) => Checked(name, book) is { } found
            ? Page(found, TypedCheck.None, null, [], null, Standards(book, events, time.GetUtcNow()), new Faults())
            : InstrumentPages.NoInstrument(name);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<CheckPage>, RazorComponentResult<ErrorPage>>> Send(
        string name, IFormCollection form, ClaimsPrincipal user, InstrumentBook book, Database database, Events events, WriteGate gate,
        TimeProvider time)
    {
        if (Checked(name, book) is not { } found)
        {
            return InstrumentPages.NoInstrument(name);
        }

        var (typed, faults, now) = (TypedCheck.From(form), new Faults(), time.GetUtcNow());
        var standards = Standards(book, events, now);
        var outcome = typed.Judge(found, standards, faults);
        outcome?.Unfit.ToList().ForEach(sentence => faults.Add(Faults.Whole, sentence));
        if (outcome is null || !faults.AreNone)
        {
            return Page(found, typed, null, [], null, standards, faults);
        }

        var seen = typed.Seen(found);
        if (!outcome.IsGood && form["seen"] != seen)
        {
            using var connection = database.OpenForReading();
            return Page(found, typed, outcome, MeasuredWith.SinceGood(connection, found.Name, long.MaxValue), seen, standards, faults);
        }

        var by = SignedIn.From(user).Person;
        var seq = await gate.Run(write => MeasuredWith.Check(write, found, outcome, by, now));
        return TypedResults.LocalRedirect(
            outcome.IsGood ? found.Address : string.Create(CultureInfo.InvariantCulture, $"{found.Address}/checks/{seq}"));
    }

    private static Results<RazorComponentResult<RecordedCheckPage>, RazorComponentResult<ErrorPage>> ShowRecorded(
        string name, long seq, InstrumentBook book, Database database, People people, Events events, TimeProvider time)
    {
        if (book.Find(name) is not { } found)
        {
            return InstrumentPages.NoInstrument(name);
        }

        using var connection = database.OpenForReading();
        if (Checks.Find(connection, found.Name, seq) is not { } check)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"\"{found.Name}\" has no check "
                + $"{seq.ToString(CultureInfo.InvariantCulture)}.");
        }

        return new RazorComponentResult<RecordedCheckPage>(new
        {
            Instrument = found,
            Check = check,
            By = people.NameOf(PersonId.From(check.Row.ByPerson)),
            Measured = check.Row.IsGood ? [] : MeasuredWith.SinceGood(connection, found.Name, seq),
            Zone = InstrumentPages.ZoneOf(InstrumentPages.Present(events, time.GetUtcNow())),
        });
    }

    /// <summary>An instrument that can be checked: one that measures.</summary>
    private static Instrument? Checked(string name, InstrumentBook book) =>
        book.Find(name) is { IsRetired: false } found && InstrumentKinds.Shows(found.Kind) ? found : null;

    private static List<Instrument> Standards(InstrumentBook book, Events events, DateTimeOffset now)
    {
        var today = InstrumentPages.Today(InstrumentPages.Present(events, now), now);
        return [.. book.All().Where(one => !InstrumentKinds.Measures(one.Kind) && !one.IsRetired && !(one.Due < today))];
    }

    private static RazorComponentResult<CheckPage> Page(
        Instrument found, TypedCheck typed, CheckOutcome? outcome, IReadOnlyList<MeasuredWith> measured, string? seen,
        IReadOnlyList<Instrument> standards, Faults faults) => new(new
        {
            Instrument = found,
            Typed = typed,
            Outcome = outcome,
            Measured = measured,
            Seen = seen,
            Standards = standards,
            Faults = faults,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
}
