using System.Globalization;
using System.Security.Claims;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Prepare;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Inspect.Station.Papers;

/// <summary>The closing reports of an event for its director: view a draft, issue a report, list those issued, check a file.</summary>
public static class ReportPages
{
    // A closing report of the largest event has a few hundred kilobytes.
    private const long MostBytes = 16 * 1024 * 1024;

    public static void MapReportPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/desk/events/{event}/reports").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapGet("", Show).WithName("ReportsPage").WithSummary("The closing reports issued for an event, and the draft of the next");
        pages.MapPost("", Issue).WithName("IssueReport").WithSummary("Issues the closing report as an entry of the register");
        pages.MapGet("{number}.pdf", File).WithName("IssuedReportPdf").WithSummary("A closing report as it was issued, byte for byte");
        pages.MapPost("{number}/strike", Strike).WithName("StrikeReport")
            .WithSummary("Strikes the file of an issued report; its hash stays");
        pages.MapPost("check", Check).WithName("CheckReport").WithSummary("Says whether a file is a report that was issued")
            .WithMetadata(new RequestSizeLimitAttribute(2 * MostBytes));
    }

    private static Results<RazorComponentResult<ReportsPage>, RazorComponentResult<ErrorPage>> Show(
        string @event, Events events, IssuedReports reports, OpenLists open, People people) =>
        events.Find(@event) is { } held ? Page(held, reports, open, people, new Faults()) : NotFound(@event);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<ReportsPage>, RazorComponentResult<ErrorPage>>> Issue(
        string @event, IFormCollection form, ClaimsPrincipal user, Events events, IssuedReports reports, OpenLists open, People people)
    {
        if (events.Find(@event) is not { } held)
        {
            return NotFound(@event);
        }

        var faults = new Faults();
        if (!PaperSize.TryFind(form["paper"], held.Authority, out var size))
        {
            faults.Add("paper", $"\"{form["paper"]}\" is not a paper size known here; choose a4 or letter.");
        }

        // The last report that the page showed when the button was pressed, so that pressing it twice issues one report.
        _ = long.TryParse(form["after"], NumberStyles.None, CultureInfo.InvariantCulture, out var after);
        if (faults.AreNone && await reports.Issue(held, SignedIn.From(user), size!, after) is { } issued)
        {
            return TypedResults.LocalRedirect($"/desk/events/{held.Id}/reports#{issued.Number}");
        }

        if (faults.AreNone)
        {
            faults.Add(
                Faults.Whole,
                "A report was issued in the meantime and is listed below; issue another only if something was recorded since.");
        }

        return Page(held, reports, open, people, faults);
    }

    private static Results<FileContentHttpResult, RazorComponentResult<ErrorPage>> File(
        string @event, string number, HttpResponse response, IssuedReports reports)
    {
        if (reports.FileOf(@event, number) is not { } pdf)
        {
            return ErrorAnswers.Page(
                StatusCodes.Status404NotFound, $"There is no closing report \"{number}\" here; its file may have been struck.");
        }

        // No cache may keep it, because it can be struck.
        response.Headers.CacheControl = "no-store";
        return TypedResults.File(pdf, "application/pdf", $"{number}.pdf");
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<ErrorPage>>> Strike(
        string @event, string number, IFormCollection form, Events events, IssuedReports reports)
    {
        _ = form;
        if (events.Find(@event) is not { } held)
        {
            return NotFound(@event);
        }

        await reports.Strike(held.Id, number);
        return TypedResults.LocalRedirect($"/desk/events/{held.Id}/reports");
    }

    private static async Task<Results<RazorComponentResult<ReportsPage>, RazorComponentResult<ErrorPage>>> Check(
        string @event, IFormCollection form, Events events, IssuedReports reports, OpenLists open, People people)
    {
        if (events.Find(@event) is not { } held)
        {
            return NotFound(@event);
        }

        var faults = new Faults();
        if (form.Files["file"] is not { Length: > 0 } file)
        {
            faults.Add("file", "Choose the PDF file of a closing report.");
            return Page(held, reports, open, people, faults);
        }

        if (file.Length > MostBytes)
        {
            faults.Add("file", $"\"{file.FileName}\" is longer than any closing report; choose the PDF file as it was downloaded.");
            return Page(held, reports, open, people, faults);
        }

        using var bytes = new MemoryStream();
        await file.CopyToAsync(bytes);
        return Page(held, reports, open, people, faults, new CheckedFile(file.FileName, reports.WithFile(bytes.ToArray())));
    }

    private static RazorComponentResult<ReportsPage> Page(
        Event held, IssuedReports reports, OpenLists open, People people, Faults faults, CheckedFile? checkedFile = null)
    {
        var issued = reports.Of(held.Id);
        return new(new
        {
            Event = held,
            Issued = issued,
            Since = issued.Count == 0 ? null : reports.Since(held.Id, issued[0].Entries),
            StillOpen = open.Of(held).Places.Count,
            NameOf = (Func<PersonId, string?>)people.NameOf,
            Checked = checkedFile,
            Faults = faults,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }

    private static RazorComponentResult<ErrorPage> NotFound(string eventId) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{eventId}\" on this station.");
}

/// <summary>A file that was compared with the reports issued.</summary>
/// <param name="Name">What the file is called.</param>
/// <param name="Report">The issued report with the same bytes; null when there is none.</param>
public sealed record CheckedFile(string Name, IssuedReport? Report);
