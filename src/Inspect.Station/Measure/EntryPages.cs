using System.Security.Claims;
using Inspect.Station.Access;
using Inspect.Station.Custody;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Record;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Measure;

/// <summary>One bowler at the table: the balls so far, and the way to the next one.</summary>
public static class EntryPages
{
    public static void MapEntryPages(this IEndpointRouteBuilder app) => app.MapGet("/events/{event}/entries/{entry}", Show)
        .RequireAuthorization(Policies.Inspector).ExcludeFromDescription().WithName("EntryPage").WithSummary("One entry with its balls");

    private static Results<RazorComponentResult<EntryPage>, RazorComponentResult<ErrorPage>> Show(
        [AsParameters] EntryAddress address, ClaimsPrincipal user, Events events, InspectionLookup lookup, EventTables tables,
        BowlerQueue queue, UnfinishedRows unfinished, [AsParameters] EntryPast past)
    {
        if (address.In(events) is not var (held, found))
        {
            return address.NoEntry();
        }

        var rows = lookup.OfEntry(held.Id, found.Number);
        var listed = past.Entered.ToInspect(held.Id, found.Number, rows);
        return new RazorComponentResult<EntryPage>(new
        {
            Event = held,
            Entry = found,
            Rows = rows,
            Said = past.Said.Of(rows.Select(row => row.Number)),
            Kept = past.Custody.OfEntry(held.Id, found.Number),
            Listed = listed,
            Doubts = past.Entered.Doubts(held.Id, found.Number, rows),
            Earlier = past.Balls.Of(held, found).Where(ball => listed.All(each => each.Ball.Known != ball.Ball)).ToList(),
            Changes = past.Changes.OfEntry(held.Id, found),
            tables.Of(held.Id).MostBalls,
            Queue = queue.Of(held),
            Viewer = SignedIn.From(user),
            Unfinished = unfinished.OfEntry(held.Id, found.Number),
        });
    }
}

/// <summary>What was before: the balls on the entry's list, those of the bowler at other events, what the bowler said of inspected ones,
/// those that the venue keeps, and the changes of the entry.</summary>
public sealed record EntryPast(
    EnteredBalls Entered, EarlierBalls Balls, SaidByBowler Said, BallsInCustody Custody, EventChanges Changes);
