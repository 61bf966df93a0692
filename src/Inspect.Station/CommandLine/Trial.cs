using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.CommandLine;

/// <summary>A station without a folder of its own, for trying: it begins with the inspections of an invented morning, and can begin again
/// without them.</summary>
public sealed class Trial(StationOptions options, IHostApplicationLifetime life)
{
    private string? _passcode;

    /// <summary>Whether this station is a trial.</summary>
    public bool IsTrial => options.IsTrial;

    /// <summary>Whether this trial still begins with its invented morning.</summary>
    public bool IsFilled => IsTrial && !options.IsEmpty;

    /// <summary>Whether it was asked to begin again without the inspections.</summary>
    public bool BeginsEmpty => _passcode is not null;

    /// <summary>Ends this run; the program then deletes what the trial kept and starts it again, with the same passcode.</summary>
    public void BeginEmpty(string passcode)
    {
        _passcode = passcode;
        life.StopApplication();
    }

    /// <summary>How the trial is to run then.</summary>
    public StationOptions Empty(StationOptions before) => before with { IsEmpty = true, DemoPasscode = _passcode };
}

/// <summary>The page that begins the trial again without its inspections.</summary>
public static class TrialPages
{
    public static void MapTrialPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/trial/empty").RequireAuthorization(Access.Policies.Director).ExcludeFromDescription();
        pages.MapGet("", Ask).WithName("TrialEmptyPage").WithSummary("Asks whether the trial is to begin again without its inspections");
        pages.MapPost("", Begin).WithName("TrialEmpty").WithSummary("Begins the trial again without its inspections");
    }

    private static Results<RazorComponentResult<TrialEmptyPage>, RazorComponentResult<ErrorPage>> Ask(Trial trial) =>
        trial.IsTrial ? new RazorComponentResult<TrialEmptyPage>() : NoTrial();

    private static Results<RazorComponentResult<TrialEmptyPage>, RazorComponentResult<ErrorPage>> Begin(
        Trial trial, Demo demo, HttpContext http)
    {
        if (!trial.IsTrial)
        {
            return NoTrial();
        }

        http.Response.OnCompleted(() =>
        {
            trial.BeginEmpty(demo.Passcode);
            return Task.CompletedTask;
        });
        http.Response.Headers["Refresh"] = "4; url=/";
        return new RazorComponentResult<TrialEmptyPage>(new { IsUnderWay = true });
    }

    private static RazorComponentResult<ErrorPage> NoTrial() => ErrorAnswers.Page(
        StatusCodes.Status404NotFound, "This is not a trial: what it has recorded stays.");
}
