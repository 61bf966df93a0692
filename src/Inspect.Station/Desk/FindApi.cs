using System.Text;
using Inspect.Station.Access;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Inspect.Station.Desk;

/// <summary>What a program may look for; every member narrows. The values are read as text, so that a fault can say what is wrong.</summary>
/// <param name="Request">The request.</param>
/// <param name="Q">A bowler's name, an entry number, a serial, an inspection's number or a slip's code.</param>
/// <param name="Event">The event's short name.</param>
/// <param name="Entry">The bowler's number in an event.</param>
/// <param name="Bowler">A bowler's name or part of it; accents, case and order are forgiven.</param>
/// <param name="Ball">The id of a ball.</param>
/// <param name="Serial">A serial number; look-alike characters count as one.</param>
/// <param name="Model">Maker or model of the ball or words of them; accents, case and order are forgiven.</param>
/// <param name="Inspector">The sign-in name of who recorded.</param>
/// <param name="Outcome">pass, fail or hold.</param>
/// <param name="Standing">stands, superseded, withdrawn or ruled.</param>
/// <param name="Rule">The id of a rule that was not met or stayed open.</param>
/// <param name="RuleOutcome">fail or hold; only with a rule.</param>
/// <param name="Instrument">An instrument that some reading was taken with, by its name.</param>
/// <param name="Edition">The rule edition's id.</param>
/// <param name="From">The first day of play.</param>
/// <param name="To">The last day of play.</param>
/// <param name="RecordedFrom">A day, a local time at the event's venue (without an event: UTC), or an instant with its offset.</param>
/// <param name="RecordedTo">The same; a day or a minute is meant to its end.</param>
/// <param name="Size">How many a page has, 1 to 200; 50 when it is left out.</param>
/// <param name="Cursor">What an answer gave as next or previous.</param>
public sealed record FindParameters(
    HttpRequest Request,
    [FromQuery(Name = "q")] string? Q = null,
    [FromQuery(Name = "event")] string? Event = null,
    [FromQuery(Name = "entry")] string? Entry = null,
    [FromQuery(Name = "bowler")] string? Bowler = null,
    [FromQuery(Name = "ball")] string? Ball = null,
    [FromQuery(Name = "serial")] string? Serial = null,
    [FromQuery(Name = "model")] string? Model = null,
    [FromQuery(Name = "inspector")] string? Inspector = null,
    [FromQuery(Name = "outcome")] string? Outcome = null,
    [FromQuery(Name = "standing")] string? Standing = null,
    [FromQuery(Name = "rule")] string? Rule = null,
    [FromQuery(Name = "ruleOutcome")] string? RuleOutcome = null,
    [FromQuery(Name = "instrument")] string? Instrument = null,
    [FromQuery(Name = "edition")] string? Edition = null,
    [FromQuery(Name = "from")] string? From = null,
    [FromQuery(Name = "to")] string? To = null,
    [FromQuery(Name = "recordedFrom")] string? RecordedFrom = null,
    [FromQuery(Name = "recordedTo")] string? RecordedTo = null,
    [FromQuery(Name = "size")] string? Size = null,
    [FromQuery(Name = "cursor")] string? Cursor = null);

/// <summary>One page of inspections, newest first.</summary>
/// <param name="Count">How many fit.</param>
/// <param name="Inspections">Those of this page.</param>
/// <param name="Next">The cursor of the next page, with older ones; absent at the end.</param>
/// <param name="Previous">The cursor of the page before; absent at the newest.</param>
public sealed record InspectionList(FoundCount Count, ListedInspection[] Inspections, string? Next, string? Previous);

/// <summary>How many fit.</summary>
/// <param name="Found">The number, counted up to 10,000.</param>
/// <param name="More">Whether more fit than were counted.</param>
public sealed record FoundCount(int Found, bool More);

/// <summary>One inspection in a list. Members without a value are absent.</summary>
/// <param name="Number">What people call it.</param>
/// <param name="At">When it was recorded, UTC.</param>
/// <param name="Event">The event's short name.</param>
/// <param name="Entry">The bowler's number in it.</param>
/// <param name="Bowler">The bowler's name; absent once struck.</param>
/// <param name="Ball">The id of the ball.</param>
/// <param name="Serial">The serial as typed.</param>
/// <param name="Model">Maker and model as typed.</param>
/// <param name="Play">The day of play.</param>
/// <param name="Outcome">pass, fail or hold.</param>
/// <param name="Standing">stands, superseded, withdrawn or ruled.</param>
/// <param name="Ruling">What the latest ruling decided.</param>
/// <param name="NotMet">The rules that were not met.</param>
/// <param name="Open">The rules that stayed open.</param>
/// <param name="Edition">The rule edition's id.</param>
/// <param name="By">Who recorded it; absent once struck.</param>
/// <param name="Supersedes">The inspection that it replaced.</param>
/// <param name="SupersededBy">The inspection that replaced it.</param>
public sealed record ListedInspection(
    string Number, string At, string Event, string Entry, string? Bowler, string? Ball, string? Serial, string? Model, string Play, string Outcome, string Standing,
    string? Ruling, string[] NotMet, string[] Open, string? Edition, string? By, string? Supersedes, string? SupersededBy);

/// <summary>Finding inspections, for programs: the same search as the desk's, as JSON a page at a time and as one CSV.</summary>
public static class FindApi
{
    public static void MapFindApi(this IEndpointRouteBuilder app)
    {
        var find = app.MapGroup("").RequireAuthorization(Policies.Director).WithTags("Inspections");
        find.MapGet("/api/inspections", Page).WithName("FindInspections").WithSummary("Inspections that fit every filter, newest first, a page at a time")
            .MayRefuse(400, 401, 403);
        find.MapGet("/api/inspections.csv", Csv).WithName("FindInspectionsCsv")
            .WithSummary("Every inspection that fits, as CSV (RFC 4180); a cell that begins like a formula has an apostrophe before it")
            .Sends("text/csv").MayRefuse(400, 401, 403);
    }

    private static Results<Ok<InspectionList>, ValidationProblem> Page([AsParameters] FindParameters asks, FindReader reader, Finder finder)
    {
        var faults = new Faults();
        var asked = FindAsked.Of(asks.Request.Query, faults);
        var filter = reader.Read(asked, faults);
        var (cursor, size) = (FindReader.PageCursor(asked, faults), FindReader.PageSize(asked, faults));
        var sought = faults.AreNone ? finder.Seek(filter, faults) : null;
        return faults.AreNone ? TypedResults.Ok(Answer(finder.Page(filter, sought, cursor, size))) : Problems.Unusable(faults);
    }

    private static Results<PushStreamHttpResult, ValidationProblem> Csv(
        [AsParameters] FindParameters asks, HttpContext http, FindReader reader, Finder finder)
    {
        var faults = new Faults();
        var asked = FindAsked.Of(asks.Request.Query, faults);
        foreach (var paging in new[] { FindAsked.Size, FindAsked.Cursor }.Where(name => asked[name] is not null))
        {
            faults.Add(paging, $"\"{asked[paging]}\" belongs to a page; the CSV has every inspection that fits, so leave it out.");
        }

        var filter = reader.Read(asked, faults);
        var sought = faults.AreNone ? finder.Seek(filter, faults) : null;
        if (!faults.AreNone)
        {
            return Problems.Unusable(faults);
        }

        http.Response.Headers.ContentDisposition = "attachment; filename=\"inspections.csv\"";
        return TypedResults.Stream(output => Write(output, finder.All(filter, sought), http.RequestAborted), FoundCsv.MediaType);
    }

    private static async Task Write(Stream output, IEnumerable<IReadOnlyList<FoundRow>> helpings, CancellationToken cancellation)
    {
        await output.WriteAsync(Encoding.UTF8.GetBytes(FoundCsv.Header), cancellation);
        foreach (var rows in helpings)
        {
            await output.WriteAsync(Encoding.UTF8.GetBytes(string.Concat(rows.Select(FoundCsv.Row))), cancellation);
        }
    }

    private static InspectionList Answer(FoundPage page) => new(
        new FoundCount(page.Count, page.HasMore), [.. page.Rows.Select(Inspection)], page.Older?.ToString(), page.Newer?.ToString());

    private static ListedInspection Inspection(FoundRow row) => new(
        row.Number, row.At, row.Event, row.Entry, row.Bowler, row.Ball, row.Serial, row.Model, row.Play, row.Outcome, row.Standing,
        row.RulingWord, row.NotMetRules, row.OpenRules, row.Edition, row.By, row.Supersedes, row.SupersededBy);
}
