using System.Globalization;
using System.Text.Json.Nodes;
using Inspect.Rules.Rulesets;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Rulesets;

/// <summary>An edition in the list of editions.</summary>
/// <param name="Id">Authority and first day.</param>
/// <param name="Title">Its title.</param>
/// <param name="From">The first day of play it is in force.</param>
/// <param name="To">The last day, absent while it has no end.</param>
/// <param name="Revision">1 as first published; more for one that corrects an earlier one of the same body and day.</param>
/// <param name="Corrects">The id of the edition it corrects; absent for one as first published.</param>
/// <param name="Corrections">What it corrects, a sentence each; absent for one as first published.</param>
/// <param name="CorrectedBy">The id of the highest revision of it; absent when it is that itself.</param>
/// <param name="Rules">The ids of its rules.</param>
/// <param name="Sha256">The hash of its file's bytes.</param>
/// <param name="Standing">published, changed or unpublished.</param>
public sealed record EditionAnswer(string Id, string Title, DateOnly From, DateOnly? To, int Revision, string? Corrects,
    string[]? Corrections, string? CorrectedBy,
    string[] Rules, string Sha256, string Standing);

/// <summary>The editions, for anyone.</summary>
public static class RulesetsApi
{
    public static void MapRulesetsApi(this IEndpointRouteBuilder app)
    {
        var rulesets = app.MapGroup("/api/rulesets").WithTags("Rulesets").RequireRateLimiting(RateLimits.Scan);
        rulesets.MapGet("", List).WithName("ListRulesets")
            .WithSummary("Every edition with its days, rules and hash").Produces<EditionAnswer[]>()
            .MayRefuse(429);
        rulesets.MapGet("{authority}/{date}", Show).WithName("ShowRuleset").WithSummary("One edition's file, byte for byte")
            .Produces(200, contentType: "application/json").MayRefuse(404, 429);
    }

    private static ContentHttpResult List(RulesetBook book) =>
        JsonAnswer.Ok(new JsonArray([.. book.Editions.All.Select(edition => Answer(book, edition))]));

    private static Results<FileContentHttpResult, ProblemHttpResult> Show(string authority, string date, RulesetBook book) =>
        book.BytesOf($"{authority}/{date}") is { } bytes
            ? TypedResults.File(bytes, "application/json; charset=utf-8")
            : Problems.Refused(StatusCodes.Status404NotFound, $"There is no edition \"{authority}/{date}\": /api/rulesets lists them.");

    private static JsonObject Answer(RulesetBook book, Edition edition)
    {
        var answer = new JsonObject { ["id"] = edition.Id, ["title"] = edition.Title, ["from"] = Day(edition.From) };
        if ((edition.Until ?? book.Editions.SuccessorOf(edition)?.AddDays(-1)) is { } last)
        {
            answer["to"] = Day(last);
        }

        answer["revision"] = edition.Revision;
        if (edition.Corrects is { } corrected)
        {
            answer["corrects"] = corrected;
            answer["corrections"] = new JsonArray([.. edition.Corrections.Select(sentence => JsonValue.Create(sentence))]);
        }

        if (book.Editions.RevisionOf(edition) is { } revision)
        {
            answer["correctedBy"] = revision.Id;
        }

        answer["rules"] = new JsonArray([.. edition.RuleIds.Select(id => JsonValue.Create(id))]);
        answer["sha256"] = edition.Sha256;
        answer["standing"] = book.StandingOf(edition).ToString().ToLowerInvariant();
        return answer;
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
