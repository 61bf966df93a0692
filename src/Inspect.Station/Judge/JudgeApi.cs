using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.Record;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Judge;

/// <summary>Judges a sheet for anyone, and keeps nothing.</summary>
public static class JudgeApi
{
    public static void MapJudgeApi(this IEndpointRouteBuilder app) => app.MapPost("/api/judge", Judge)
        .WithName("Judge").WithTags("Judge").WithSummary("Judges a sheet; nothing is stored")
        .Accepts<SheetDocument>("application/json").Produces<VerdictDocument>()
        .MayRefuse(400, 413, 415, 429)
        .RequireRateLimiting(RateLimits.Judge);

    private static async Task<Results<ContentHttpResult, ValidationProblem>> Judge(
        HttpRequest request, EditionLibrary editions, ILogger<EditionLibrary> log)
    {
        var faults = new List<Fault>();
        var body = await RequestBody.Read(request);
        var sheet = SheetReader.Read(body, faults);
        var verdict = sheet is null ? null : SheetJudge.Judge(editions, sheet, faults);
        RuleErrorLog.Write(log, verdict?.RuleErrors ?? []);
        return verdict is null ? Problems.Unusable(Faults.Of(faults)) : JsonAnswer.Ok(VerdictJson.Write(verdict));
    }
}
