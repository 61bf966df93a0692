using System.Globalization;
using System.Security.Claims;
using Inspect.Metrology;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Access;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Instruments;

/// <summary>The pages of gauge studies. Inspectors enter them; a director can use their repeatability.</summary>
public static class StudyPages
{
    public static void MapStudyPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/instruments/{name}/studies").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        pages.MapGet("new", ShowNew).WithName("NewStudyPage").WithSummary("The form that enters a gauge study");
        pages.MapPost("new", Add).WithName("AddStudy").WithSummary("Saves a gauge study");
        pages.MapGet("{study:long}", Show).WithName("StudyPage").WithSummary("A gauge study by both methods");
        pages.MapPost("{study:long}/use", Use).RequireAuthorization(Policies.Director).WithName("UseRepeatability")
            .WithSummary("Uses a study's repeatability for its instrument");
    }

    private static Results<RazorComponentResult<NewStudyPage>, RazorComponentResult<ErrorPage>> ShowNew(
        string name, InstrumentBook book, string? parts = null, string? inspectors = null, string? trials = null)
    {
        if (Studied(name, book) is not { } found)
        {
            return InstrumentPages.NoInstrument(name);
        }

        var faults = new Faults();
        var typed = TypedStudy.Blank(parts, inspectors, trials, faults);
        return new RazorComponentResult<NewStudyPage>(new { Instrument = found, Typed = typed, Faults = faults })
        {
            StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<NewStudyPage>, RazorComponentResult<ErrorPage>>> Add(
        string name, IFormCollection form, ClaimsPrincipal user, InstrumentBook book, WriteGate gate, TimeProvider time)
    {
        if (Studied(name, book) is not { } found)
        {
            return InstrumentPages.NoInstrument(name);
        }

        var (typed, faults) = (TypedStudy.From(form), new Faults());
        if (typed.Read(Checks.UnitOf(found), faults) is not { } readings)
        {
            return new RazorComponentResult<NewStudyPage>(new { Instrument = found, Typed = typed, Faults = faults })
            {
                StatusCode = StatusCodes.Status422UnprocessableEntity,
            };
        }

        var (by, at) = (SignedIn.From(user).Person, time.GetUtcNow());
        var id = await gate.Run(write => GaugeStudies.Keep(write, found, typed.Typed("title"), readings, by, at));
        return TypedResults.LocalRedirect(AddressOf(found, id));
    }

    private static Results<RazorComponentResult<StudyPage>, RazorComponentResult<ErrorPage>> Show(
        [AsParameters] StudyAddress address, ClaimsPrincipal user, InstrumentBook book, Database database, People people) =>
        Find(address, book, database) is var (found, kept)
            ? Page(found, kept, user, people, new Faults())
            : NoStudy(address);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<StudyPage>, RazorComponentResult<ErrorPage>>> Use(
        [AsParameters] StudyAddress address, IFormCollection form, ClaimsPrincipal user, InstrumentBook book, Database database,
        People people, WriteGate gate, TimeProvider time)
    {
        if (Find(address, book, database) is not var (found, kept))
        {
            return NoStudy(address);
        }

        var faults = new Faults();
        var table = kept.Readings.ToTable();
        var result = form["method"] == "range" ? GaugeByRange.Of(table)?.Result : GaugeByVariance.Of(table).Result;
        var text = result is null ? ""
            : StatedSize.In(Seam.ToDecimal(result.Repeatability) * Units.Factor(kept.Readings.Unit), kept.Readings.Unit);
        var size = TypedInstrument.ReadSize(text, found.Kind).Size;
        if (result is null || size is null)
        {
            faults.Add(Faults.Whole, "All readings in this study agree, so it gives no repeatability: "
                + "the display's steps are too coarse to show it.");
            return Page(found, kept, user, people, faults);
        }

        var changed = found with
        {
            Repeatability = size,
            RepeatabilityFreedom = result.RepeatabilityFreedom,
            RepeatabilityFrom = string.Create(CultureInfo.InvariantCulture, $"study {address.Study}, {result.Method}"),
            At = time.GetUtcNow(),
            By = SignedIn.From(user).Person,
        };
        if (await gate.Run(write => InstrumentBook.TryChange(write, changed)))
        {
            return TypedResults.LocalRedirect(found.Address);
        }

        faults.Add(Faults.Whole, "Somebody else changed this instrument meanwhile; look at it again before you use this.");
        return Page(found, kept, user, people, faults);
    }

    internal static string AddressOf(Instrument instrument, long study) =>
        string.Create(CultureInfo.InvariantCulture, $"{instrument.Address}/studies/{study}");

    private static Instrument? Studied(string name, InstrumentBook book) =>
        book.Find(name) is { } found && InstrumentKinds.Shows(found.Kind) ? found : null;

    private static (Instrument Instrument, KeptStudy Study)? Find(StudyAddress address, InstrumentBook book, Database database)
    {
        using var connection = database.OpenForReading();
        return Studied(address.Name, book) is { } found && GaugeStudies.Find(connection, found.Name, address.Study) is { } kept
            ? (found, kept)
            : null;
    }

    private static RazorComponentResult<StudyPage> Page(
        Instrument found, KeptStudy kept, ClaimsPrincipal user, People people, Faults faults)
    {
        var table = kept.Readings.ToTable();
        return new RazorComponentResult<StudyPage>(new
        {
            Instrument = found,
            Study = kept,
            Table = table,
            ByVariance = GaugeByVariance.Of(table),
            ByRange = GaugeByRange.Of(table),
            By = people.NameOf(kept.By),
            Viewer = SignedIn.From(user),
            Faults = faults,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }

    private static RazorComponentResult<ErrorPage> NoStudy(StudyAddress address) => ErrorAnswers.Page(
        StatusCodes.Status404NotFound,
        string.Create(CultureInfo.InvariantCulture, $"There is no study {address.Study} of an instrument \"{address.Name}\"."));
}

/// <summary>A study as the address of its pages names it.</summary>
/// <param name="Name">The instrument's name.</param>
/// <param name="Study">The study's number.</param>
public sealed record StudyAddress(string Name, long Study);
