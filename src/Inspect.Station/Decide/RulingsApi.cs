using System.Security.Claims;
using Inspect.Station.Access;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Inspect.Station.Decide;

/// <summary>The answer to a recorded ruling.</summary>
/// <param name="Number">The inspection ruled on.</param>
/// <param name="Decision">What was decided.</param>
/// <param name="Seq">The register's entry.</param>
/// <param name="Standing">The inspection's standing from now on.</param>
public sealed record RulingRecorded(string Number, string Decision, long Seq, string Standing);

/// <summary>One ruling on an inspection.</summary>
/// <param name="Seq">The register's entry.</param>
/// <param name="Decision">accept, allow, remeasure, recall, withdraw or undo.</param>
/// <param name="At">When, UTC.</param>
/// <param name="Reason">Why; absent once struck.</param>
/// <param name="Condition">On what condition, if any.</param>
/// <param name="By">Who decided; absent once struck.</param>
public sealed record RulingAnswer(long Seq, string Decision, string At, string? Reason, string? Condition, string? By);

/// <summary>The routes for programs that rule on inspections.</summary>
public static class RulingsApi
{
    /// <summary>Adds the services for ruling, spot checks and draws.</summary>
    public static void AddDecide(this IServiceCollection services)
    {
        services.AddSingleton<KeyedRequests>();
        services.AddSingleton<Rulings>();
        services.AddSingleton<SpotChecks>();
        services.AddSingleton(Draws.Pools);
        services.AddSingleton(Draws.Index);
        services.AddSingleton<Draws>();
        services.AddSingleton<OpenLists>();
    }

    public static void MapRulingsApi(this IEndpointRouteBuilder app)
    {
        app.MapPost("/api/inspections/{number}/rulings", Record).RequireAuthorization(Policies.Director).WithTags("Inspections")
            .WithName("RecordRuling").WithSummary("Records a director's ruling on an inspection; Idempotency-Key is required")
            .Takes(Rulings.Schema).Produces<RulingRecorded>(201).Produces<RulingRecorded>(200)
            .MayRefuse(400, 401, 403, 404, 413, 415, 422);
    }

    /// <summary>The rulings on an inspection, as programs see them.</summary>
    public static RulingAnswer[] Answers(FoundInspection found, People people) => [.. found.Rulings.Select(ruling =>
        new RulingAnswer(
            ruling.Seq, ruling.Decision.Word(), UtcText.Of(ruling.At), ruling.Reason, ruling.Condition, people.NameOf(ruling.By)))];

    private static Task<Results<JsonAnswer, ProblemHttpResult, ValidationProblem>> Record(
        string number, HttpRequest request, ClaimsPrincipal user, Rulings rulings,
        [FromHeader(Name = "Idempotency-Key")] string? key = null) =>
        Answer(number, key, "ruling", async parsed =>
            await rulings.Record(SignedIn.From(user), parsed, key!, await RequestBody.Read(request)));

    /// <summary>Answers a request about an inspection that carries a key.</summary>
    /// <param name="number">The inspection, as the address names it.</param>
    /// <param name="key">The request's Idempotency-Key.</param>
    /// <param name="what">What each key is for, such as <c>ruling</c>.</param>
    /// <param name="carryOut">Carries the request out.</param>
    internal static async Task<Results<JsonAnswer, ProblemHttpResult, ValidationProblem>> Answer(
        string number, string? key, string what, Func<InspectionNumber, Task<DecideResult>> carryOut)
    {
        if (Idempotency.RefusalOf(key, what) is { } refusal)
        {
            var faults = new Faults();
            faults.Add("Idempotency-Key", refusal);
            return Problems.Unusable(faults);
        }

        if (!InspectionNumber.TryParse(number, out var parsed))
        {
            return NotFound(number);
        }

        return await carryOut(parsed) switch
        {
            DecideResult.Recorded recorded =>
                new JsonAnswer(recorded.Answer, recorded.IsNew ? StatusCodes.Status201Created : StatusCodes.Status200OK),
            DecideResult.Refused refused => Problems.Unusable(refused.Faults),
            DecideResult.NoSuchInspection => NotFound(number),
            _ => Problems.Refused(StatusCodes.Status422UnprocessableEntity,
                $"This Idempotency-Key was used for another request; use a new one for each {what}."),
        };
    }

    private static ProblemHttpResult NotFound(string number) =>
        Problems.Refused(StatusCodes.Status404NotFound, $"There is no inspection \"{number}\" on this station.");
}
