using System.Security.Claims;
using Inspect.Sheets;
using Inspect.Station.Access;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Inspect.Station.Decide;

/// <summary>The answer to a recorded spot check.</summary>
/// <param name="Number">The inspection that the ball was compared with.</param>
/// <param name="IsTheBall">Whether it is the ball.</param>
/// <param name="Differs">What differs: name, serial, tag, holes.</param>
/// <param name="Seq">The register's entry.</param>
/// <param name="Standing">The inspection's standing, which a spot check does not change.</param>
public sealed record SpotCheckRecorded(string Number, bool IsTheBall, string[] Differs, long Seq, string Standing);

/// <summary>One spot check of a ball.</summary>
/// <param name="Seq">The register's entry.</param>
/// <param name="IsTheBall">Whether it was the ball.</param>
/// <param name="Differs">What differed: name, serial, tag, holes.</param>
/// <param name="At">When, UTC.</param>
/// <param name="Remark">What was remarked; absent once struck.</param>
/// <param name="By">Who compared; absent once struck.</param>
public sealed record SpotCheckAnswer(long Seq, bool IsTheBall, string[] Differs, string At, string? Remark, string? By);

/// <summary>The routes for programs that record spot checks.</summary>
public static class SpotChecksApi
{
    public static void MapSpotChecksApi(this IEndpointRouteBuilder app) =>
        app.MapPost("/api/inspections/{number}/spot-checks", Record).RequireAuthorization(Policies.Inspector).WithTags("Inspections")
            .WithName("RecordSpotCheck")
            .WithSummary("Records that a ball in use was compared with its inspection; Idempotency-Key is required")
            .Takes(SpotChecks.Schema).Produces<SpotCheckRecorded>(201).Produces<SpotCheckRecorded>(200)
            .MayRefuse(400, 401, 403, 404, 413, 415, 422);

    /// <summary>The spot checks of an inspection, as programs see them; null when there are none.</summary>
    public static SpotCheckAnswer[]? Answers(FoundInspection found, People people) => found.SpotChecks.Count == 0 ? null
        : [.. found.SpotChecks.Select(check => new SpotCheckAnswer(
            check.Seq, check.IsTheBall, [.. check.Differs.Select(SpotCheck.Words.WordOf)], UtcText.Of(check.At), check.Remark,
            people.NameOf(check.By)))];

    private static Task<Results<JsonAnswer, ProblemHttpResult, ValidationProblem>> Record(
        string number, HttpRequest request, ClaimsPrincipal user, SpotChecks spotChecks,
        [FromHeader(Name = "Idempotency-Key")] string? key = null) =>
        RulingsApi.Answer(number, key, "spot check", async parsed =>
            await spotChecks.Record(SignedIn.From(user), parsed, key!, await RequestBody.Read(request)));
}
