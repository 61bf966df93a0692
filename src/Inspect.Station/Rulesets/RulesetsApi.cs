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
public sealed record EditionAnswer(
    string Id, string Title, DateOnly From, DateOnly? To, int Revision, string? Corrects, string[]? Corrections, string? CorrectedBy,
    string[] Rules, string Sha256, string Standing);

/// <summary>The editions, for anyone.</summary>
public static class RulesetsApi
{
    public static void MapRulesetsApi(this IEndpointRouteBuilder app)
    {
        var rulesets = app.MapGroup("/api/rulesets").WithTags("Rulesets").RequireRateLimiting(RateLimits.Scan);
        rulesets.MapGet("", List).WithName("ListRulesets").WithSummary("Every edition with its days, rules and hash")
            .MayRefuse(429);
        rulesets.MapGet("{authority}/{date}", Show).WithName("ShowRuleset").WithSummary("One edition's file, byte for byte")
            .Sends("application/json").MayRefuse(404, 429);
    }

    private static Ok<EditionAnswer[]> List(RulesetBook book) =>
        TypedResults.Ok(book.Editions.All.Select(edition => Answer(book, edition)).ToArray());

    private static Results<FileContentHttpResult, ProblemHttpResult> Show(string authority, string date, RulesetBook book) =>
        book.BytesOf($"{authority}/{date}") is { } bytes
            ? TypedResults.File(bytes, "application/json; charset=utf-8")
            : Problems.Refused(StatusCodes.Status404NotFound, $"There is no edition \"{authority}/{date}\": /api/rulesets lists them.");

    private static EditionAnswer Answer(RulesetBook book, Edition edition) => new(
        edition.Id,
        edition.Title,
        edition.From,
        edition.Until ?? book.Editions.SuccessorOf(edition)?.AddDays(-1),
        edition.Revision,
        edition.Corrects,
        edition.Corrects is null ? null : [.. edition.Corrections],
        book.Editions.RevisionOf(edition)?.Id,
        [.. edition.RuleIds],
        edition.Sha256,
        book.StandingOf(edition).ToString().ToLowerInvariant());
}
