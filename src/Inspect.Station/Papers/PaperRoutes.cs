using System.Security.Claims;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Slip;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Papers;

/// <summary>Prints papers other than slips: the closing report and the open list for the director, a bowler's
/// sheet for the table.</summary>
public static class PaperRoutes
{
    private const string Pdf = "application/pdf";

    public static void AddPapers(this IServiceCollection services)
    {
        services.AddSingleton(IssuedReports.Index);
        services.AddSingleton<ClosingReports>();
        services.AddSingleton<IssuedReports>();
    }

    public static void MapPaperRoutes(this IEndpointRouteBuilder app)
    {
        var desk = app.MapGroup("/desk/events/{event}").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        desk.MapGet("closing-report.pdf", Closing).WithName("ClosingReportPdf")
            .WithSummary("The closing report of an event on paper, as a draft");
        desk.MapGet("open.pdf", Open).WithName("OpenListPdf").WithSummary("The open list of an event on paper");
        app.MapGet("/events/{event}/entries/{entry}/sheet.pdf", Sheet).RequireAuthorization(Policies.Inspector).ExcludeFromDescription()
            .WithName("BowlerSheetPdf").WithSummary("All balls of an entry on paper");
    }

    private static Results<FileContentHttpResult, RazorComponentResult<ErrorPage>> Closing(
        string @event, ClaimsPrincipal user, Events events, ClosingReports reports, string? paper = null)
    {
        if (Asked(@event, events, paper, out var held, out var size) is { } refusal)
        {
            return refusal;
        }

        var report = reports.Of(held!, SignedIn.From(user));
        return TypedResults.File(ClosingReportPaper.Render(report, size!, isDraft: true).Pdf, Pdf, $"{held!.Id}-closing-report-draft.pdf");
    }

    private static Results<FileContentHttpResult, RazorComponentResult<ErrorPage>> Open(
        string @event, Events events, OpenLists open, WriteGate gate, TimeProvider time, string? paper = null)
    {
        if (Asked(@event, events, paper, out var held, out var size) is { } refusal)
        {
            return refusal;
        }

        var list = open.Of(held!);
        var printed = OpenListPaper.Render(held!, list, open.Read(list.Places), At(held!, time), gate.Head.Size, size!);
        return TypedResults.File(printed.Pdf, Pdf, $"{held!.Id}-open.pdf");
    }

    private static Results<FileContentHttpResult, RazorComponentResult<ErrorPage>> Sheet(
        string @event, string entry, Events events, InspectionLookup lookup, SlipPrinter printer, WriteGate gate, TimeProvider time,
        string? paper = null)
    {
        if (Asked(@event, events, paper, out var held, out var size) is { } refusal)
        {
            return refusal;
        }

        if (events.FindEntry(held!.Id, entry) is not { } found)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no entry \"{entry}\" in this event.");
        }

        var head = gate.Head;
        var rows = lookup.OfEntry(held.Id, found.Number).Reverse().ToList();
        var sheet = new BowlerSheet(
            held.Name,
            EventWords.Days(held),
            found.Bowler ?? "Name struck",
            found.Squad is null ? found.Number : $"{found.Number}, squad {found.Squad}",
            At(held, time),
            [.. rows.Where(row => row.SupersededBy is null)
                .Select(row => InspectionNumber.TryParse(row.Number, out var number) ? lookup.ByNumber(number) : null)
                .OfType<FoundInspection>().Select(printer.Content)],
            [.. rows.Where(row => row.SupersededBy is not null).Select(row => row.Number)],
            head.Size,
            head.Edge.Root.ToString()[..12]);
        return TypedResults.File(sheet.Render(size!).Pdf, Pdf, $"{held.Id}-{found.Number}.pdf");
    }

    private static RazorComponentResult<ErrorPage>? Asked(
        string eventId, Events events, string? paper, out Event? held, out PaperSize? size)
    {
        size = null;
        held = events.Find(eventId);
        return held is null
            ? ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{eventId}\" on this station.")
            : PaperSize.TryFind(paper, held.Authority, out size)
                ? null
                : ErrorAnswers.Page(
                    StatusCodes.Status422UnprocessableEntity, $"\"{paper}\" is not a paper size known here; choose a4 or letter.");
    }

    private static DateTimeOffset At(Event held, TimeProvider time) =>
        TimeZoneInfo.ConvertTime(time.GetUtcNow(), TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone));
}
