using System.Security.Claims;
using Inspect.Rules.Advice;
using Inspect.Rules.Rulesets;
using Inspect.Rules.Sheets;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Record;

/// <summary>What was recorded, for people.</summary>
public static class InspectionPages
{
    public static void MapInspectionPages(this IEndpointRouteBuilder app) => app.MapGet("/inspections/{number}", Show)
        .RequireAuthorization(Policies.Inspector).ExcludeFromDescription().WithName("InspectionPage").WithSummary("One recorded inspection");

    private static Results<RazorComponentResult<InspectionPage>, RazorComponentResult<ErrorPage>> Show(
        string number, ClaimsPrincipal user, InspectionLookup lookup, Events events, People people, EditionLibrary editions, BowlerQueue queue,
        Storage.Database database, TimeProvider time)
    {
        if (!InspectionNumber.TryParse(number, out var parsed) || lookup.ByNumber(parsed) is not { } found || events.Find(found.Inspection.Event) is not { } held)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no inspection \"{number}\" on this station.");
        }

        var history = lookup.OfBall(found.Inspection.Ball);
        return new RazorComponentResult<InspectionPage>(new
        {
            Found = found,
            Event = held,
            History = history,
            Bowler = people.NameOf(found.Inspection.Bowler.Person),
            By = people.NameOf(found.Inspection.By.Person),
            NameOf = (Func<string, string?>)(id => people.NameOf(PersonId.From(id))),
            ReasonOf = (Func<string, string?>)(hash => Remarks.TextOf(database, found.Inspection.By.Person, hash)),
            Edition = found.Inspection.Verdict.Edition is { } mark && editions.TryFind(mark.Id, out var edition) ? edition : null,
            Earlier = Earlier(found, history, lookup),
            CanUndo = Rulings.CanUndo(found, SignedIn.From(user).Person, time.GetUtcNow()),
            Queue = queue.Of(held),
            Viewer = SignedIn.From(user),
        });
    }

    /// <summary>What the inspection of the same ball before this one read.</summary>
    private static EarlierInspection? Earlier(FoundInspection found, IReadOnlyList<InspectionRow> history, InspectionLookup lookup) =>
        history.LastOrDefault(row => row.Seq < found.Seq) is { } row && InspectionNumber.TryParse(row.Number, out var number)
        && lookup.ByNumber(number) is { } before
            ? new EarlierInspection(before.Inspection.Sheet, WasRedrilled(before.Inspection.Sheet, found.Inspection.Sheet))
            : null;

    internal static bool WasRedrilled(Sheet before, Sheet now) => !Holes(before).SequenceEqual(Holes(now));

    /// <summary>What tells a re-drilled ball: any hole that is new, gone, wider or deeper than before.</summary>
    private static IEnumerable<(HoleKind, Digit?, decimal?, decimal?)> Holes(Sheet sheet) =>
        (sheet.Holes ?? []).Select(hole => (hole.Kind, hole.Digit, hole.Diameter?.Value, hole.Depth?.Value));
}
