using System.Text;
using Inspect.Rules.Judging;
using Inspect.Rules.Replaying;
using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Desk;

/// <summary>Judges an event's recorded inspections again under other rules. It changes no record.</summary>
public static class ReplayPages
{
    public static void MapReplayPages(this IEndpointRouteBuilder app)
    {
        var desk = app.MapGroup("/desk/replay").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        desk.MapGet("", Show).WithName("ReplayPage").WithSummary("Which verdicts would change under other rules");
        desk.MapGet("changes.csv", Csv).WithName("ReplayCsv").WithSummary("The same as a table (RFC 4180)");
    }

    private static Results<RazorComponentResult<ReplayPage>, RazorComponentResult<ErrorPage>> Show(
        Events events, EditionLibrary editions, EventReplay replay,
        string? @event = null, string? edition = null, string? decision = null, string? factor = null)
    {
        var asked = new ReplayAsked(@event ?? "", edition ?? "", decision ?? "", factor ?? "");
        var faults = new Faults();
        var report = asked.Event.Length == 0 ? null : replay.Of(asked, faults);
        return new RazorComponentResult<ReplayPage>(
            new { Events = events.All(), Editions = editions.All.ToList(), Asked = asked, Report = report, Faults = faults })
        {
            StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }

    private static Results<FileContentHttpResult, RazorComponentResult<ErrorPage>> Csv(
        EventReplay replay, string? @event = null, string? edition = null, string? decision = null, string? factor = null)
    {
        var faults = new Faults();
        var report = replay.Of(new ReplayAsked(@event ?? "", edition ?? "", decision ?? "", factor ?? ""), faults);
        return report is null
            ? ErrorAnswers.Page(StatusCodes.Status422UnprocessableEntity, faults.All[0].Message)
            : TypedResults.File(Encoding.UTF8.GetBytes(ReplayCsv.Write(report)), "text/csv; charset=utf-8", $"{@event}-replay.csv");
    }
}

/// <summary>What the director asks to see.</summary>
/// <param name="Event">The event's short name.</param>
/// <param name="Edition">Another edition's id, empty for each inspection's own, or <see cref="Revised"/>.</param>
/// <param name="Decision">Another decision rule, or empty for the event's.</param>
/// <param name="Factor">The guard factor of a guarded rule.</param>
public sealed record ReplayAsked(string Event, string Edition, string Decision, string Factor)
{
    /// <summary>Asks for the highest revision of each inspection's own edition.</summary>
    public const string Revised = "revised";

    /// <summary>The same as a query for links.</summary>
    public string Query =>
        $"?event={Uri.EscapeDataString(Event)}&edition={Uri.EscapeDataString(Edition)}"
        + $"&decision={Uri.EscapeDataString(Decision)}&factor={Uri.EscapeDataString(Factor)}";

    internal DecisionRule Rule(Faults faults)
    {
        if (Decision == "simple")
        {
            return DecisionRule.Simple;
        }

        if (TermsReader.Factor(Factor) is not { } factor)
        {
            faults.Add("factor", Factor.Length == 0
                ? "A guarded rule needs a factor; type how many standard uncertainties wide the band is, such as 2."
                : $"\"{Factor}\" is not a guard factor; type how many standard uncertainties wide the band is, such as 2.");
            return DecisionRule.Simple;
        }

        return Decision switch
        {
            "guarded-acceptance" => DecisionRule.GuardedAcceptance(factor),
            "guarded-rejection" => DecisionRule.GuardedRejection(factor),
            _ => Unknown(faults),
        };
    }

    private DecisionRule Unknown(Faults faults)
    {
        faults.Add("decision", $"\"{Decision}\" is not a decision rule; choose one from the list.");
        return DecisionRule.Simple;
    }
}
