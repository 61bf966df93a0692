using System.Text;
using Inspect.Station.Access;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.OpenApi;

namespace Inspect.Station.Desk;

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
        var filters = FindFilters.All.Select(filter => (filter.Name, filter.Says)).ToArray();
        Described(find.MapGet("/api/inspections", Page).WithName("FindInspections"), [.. filters, .. FindPaging.Members])
            .WithSummary("Inspections that fit every filter, newest first, a page at a time")
            .MayRefuse(400, 401, 403);
        Described(find.MapGet("/api/inspections.csv", Csv).WithName("FindInspectionsCsv"), filters)
            .WithSummary("Every inspection that fits, as CSV (RFC 4180); a cell that begins like a formula has an apostrophe before it")
            .Sends("text/csv").MayRefuse(400, 401, 403);
    }

    // The query is read by the table of filters, which no parameter of the handler tells.
    private static RouteHandlerBuilder Described(RouteHandlerBuilder route, (string Name, string Says)[] members) =>
        route.AddOpenApiOperationTransformer((operation, _, _) =>
        {
            operation.Parameters = [.. members.Select(member => new OpenApiParameter
            {
                Name = member.Name,
                In = ParameterLocation.Query,
                Description = member.Says,
                Schema = new OpenApiSchema { Type = JsonSchemaType.String },
            })];
            return Task.CompletedTask;
        });

    private static Results<Ok<InspectionList>, ValidationProblem> Page(HttpRequest request, FindReader reader, Finder finder)
    {
        var faults = new Faults();
        var asked = FindAsked.Of(request.Query, faults);
        var terms = reader.Read(asked, faults);
        var (cursor, size) = FindPaging.Read(asked, faults);
        var sought = faults.AreNone ? finder.Seek(terms, faults) : null;
        return faults.AreNone ? TypedResults.Ok(Answer(finder.Page(terms, sought, cursor, size))) : Problems.Unusable(faults);
    }

    private static Results<PushStreamHttpResult, ValidationProblem> Csv(HttpContext http, FindReader reader, Finder finder)
    {
        var faults = new Faults();
        var asked = FindAsked.Of(http.Request.Query, faults);
        foreach (var (paging, _) in FindPaging.Members.Where(member => asked[member.Name] is not null))
        {
            faults.Add(paging, $"\"{asked[paging]}\" belongs to a page; the CSV has every inspection that fits, so leave it out.");
        }

        var terms = reader.Read(asked, faults);
        var sought = faults.AreNone ? finder.Seek(terms, faults) : null;
        if (!faults.AreNone)
        {
            return Problems.Unusable(faults);
        }

        http.Response.Headers.ContentDisposition = "attachment; filename=\"inspections.csv\"";
        return TypedResults.Stream(output => Write(output, finder.All(terms, sought), http.RequestAborted), FoundCsv.MediaType);
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
