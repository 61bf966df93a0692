using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Desk;

/// <summary>The director's desk: one search for every ball, bowler, slip, inspector, rule and time.</summary>
public static class DeskPages
{
    public static void MapDeskPages(this IEndpointRouteBuilder app)
    {
        var desk = app.MapGroup("/desk").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        desk.MapGet("", Show).WithName("DeskPage").WithSummary("Finds any inspection, with the links from the desk");
        desk.MapGet("balls/{ball}", Story).WithName("BallStoryPage").WithSummary("The story of one ball");
    }

    private static RazorComponentResult Story(string ball, BallStories stories, Events events) => stories.Of(ball) is { } story
        ? new RazorComponentResult<BallStoryPage>(new { Story = story, EventOf = (Func<string, Event?>)events.Find })
        : ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no ball \"{ball}\" on this station.");

    private static Results<RazorComponentResult<DeskPage>, RedirectHttpResult> Show(
        HttpRequest request, FindReader reader, Finder finder, Database database, Events events, SignIns signIns, EditionLibrary editions,
        TimeProvider time)
    {
        var faults = new Faults();
        var asked = FindAsked.Of(request.Query, faults);
        if (faults.AreNone && request.Query.Any(member => string.IsNullOrWhiteSpace(member.Value)))
        {
            // A form sends all its fields; the address keeps only those that were filled in.
            return TypedResults.LocalRedirect($"/desk{asked.Query}");
        }

        var choices = DeskChoices.Now(database, events, signIns, editions, time);
        var latest = asked.IsEmpty ? choices.Running : null;
        var terms = reader.Read(latest is null ? asked : asked.With(FindFilters.Event, latest.Id), faults);
        var (cursor, size) = FindPaging.Read(asked, faults);
        var sought = faults.AreNone ? finder.Seek(terms, faults) : null;
        return new RazorComponentResult<DeskPage>(new
        {
            Asked = asked,
            Choices = choices,
            Faults = faults,
            Latest = latest,
            HasModels = asked[FindFilters.Search] is { } typed && !IsOnlyAModel(sought) && HasModels(database, typed),
            Found = faults.AreNone ? finder.Page(terms, sought, cursor, size) : null,
        })
        {
            StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }

    private static bool IsOnlyAModel(Sought? sought) => sought is { Readings: [{ Word: null, As: FindSearch.AsModel }] };

    private static bool HasModels(Database database, string typed)
    {
        using var connection = database.OpenForReading();
        return FindSearch.Models(connection, typed).Count > 0;
    }
}
