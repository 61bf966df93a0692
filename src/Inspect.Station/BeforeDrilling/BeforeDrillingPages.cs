using Inspect.Rules.Rulesets;
using Inspect.Station.Record;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.BeforeDrilling;

/// <summary>The page for the shop counter, open to anyone: it takes a ball and
/// its planned holes and shows what they would do. Nothing is stored.</summary>
public static class BeforeDrillingPages
{
    private const string FirstAuthority = "us-national";

    public static void MapBeforeDrillingPages(this IEndpointRouteBuilder app) => app.MapGet("/before-drilling", Show)
        .WithName("BeforeDrillingPage").WithSummary("What planned holes would do to a ball, before anyone drills").ExcludeFromDescription()
        .RequireRateLimiting(RateLimits.Plan);

    private static RazorComponentResult<BeforeDrillingPage> Show(
        HttpRequest request, EditionLibrary editions, ILogger<PlanOutcome> log)
    {
        var form = PlanForm.From(request.Query, Latest(editions).Id);
        if (!editions.TryFind(form.Edition, out var edition))
        {
            form.Faults.Add("edition", $"\"{form.Edition}\" is not an edition known here; choose one from the list.");
        }

        var outcome = form.Faults.AreNone ? PlanOutcome.Of(form, edition!) : null;
        RuleErrorLog.Write(log, outcome is null ? [] : outcome.Planned.Verdict.RuleErrors.Concat(outcome.Other.Verdict.RuleErrors));
        return new RazorComponentResult<BeforeDrillingPage>(new
        {
            Form = form,
            Editions = editions.All.Reverse().ToList(),
            Edition = edition,
            Outcome = outcome,
            Address = request.Path + request.QueryString,
        })
        { StatusCode = form.Faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }

    private static Edition Latest(EditionLibrary editions) =>
        (editions.Of(FirstAuthority) is { Count: > 0 } own ? own : [.. editions.All])[^1];
}
